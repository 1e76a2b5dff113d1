#include "ui/desk/PageDesk.h"

#include "ui/page/PageMemory.h"

#include <utility>

namespace earwright::ui {

PageDesk::PageDesk(PageView& view, QSettings& settings, QObject* parent)
    : QObject(parent), work(nullptr, Urgency::Usual) {
    view.setWish(rememberedWish(settings));
    connect(&view, &PageView::wishChanged, this, [&view, &settings] { rememberWish(view.wish(), settings); });
    endOfTurn.setSingleShot(true);
    connect(&endOfTurn, &QTimer::timeout, this, &PageDesk::begin);
    view.setLayer([this](PageOrder order, std::function<void(PageView::Laid)> done) {
        next = {std::move(order), std::move(done)};
        endOfTurn.start(0);
    });
}

void PageDesk::begin() {
    auto wanted = std::exchange(next, std::nullopt);
    if (!wanted) return;
    work.start<PageView::Laid>(
        [order = std::move(wanted->order)](const std::stop_token&, const BackgroundJob::Report&) {
            return laidOut(order);
        },
        std::move(wanted->done));
}

} // namespace earwright::ui
