#include "core/listening/HearingAhead.h"

#include "core/listening/SpanListener.h"

#include <system_error>
#include <utility>

namespace earwright {

namespace {

/// What is listened to on one thread; two share more.
constexpr std::size_t fewSpans = 16;

} // namespace

HearingAhead::HearingAhead(std::shared_ptr<const StereoViews> stereo, const TuningCurve& tuning,
                           std::shared_ptr<HeardSpans> kept, std::vector<Range<Seconds>> wanted,
                           std::vector<std::size_t> inViews)
    : views(std::move(stereo)),
      curve(tuning),
      memory(std::move(kept)),
      spans(std::move(wanted)),
      asked(std::move(inViews)),
      heard(spans.size()) {
    try {
        if (spans.size() > fewSpans) other = std::jthread([this] { takePart(); });
    } catch (const std::system_error&) { // the system has no thread left: one has to do
    }
}

HearingAhead::~HearingAhead() {
    next = spans.size();
}

/// Each thread takes the next span that is left: of two halves one would wait for a thread that begins late.
void HearingAhead::takePart() {
    SpanListener listener(*views, curve);
    for (std::size_t i = next++; i < spans.size(); i = next++)
        for (HeardSpan& inView : listener.hear(spans[i], asked))
            heard[i].push_back(std::make_shared<const HeardSpan>(std::move(inView)));
}

HearingAhead::Heard HearingAhead::finish() {
    if (next < spans.size()) takePart();
    if (other.joinable()) other.join();
    for (std::size_t i = 0; i < spans.size(); ++i)
        for (std::size_t view = 0; view < asked.size(); ++view)
            memory->keep(asked[view], spans[i], heard[i][view]);
    return std::move(heard);
}

} // namespace earwright
