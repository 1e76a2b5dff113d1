#include "core/engraving/Engraving.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double titleSize = 4;
constexpr double headingSize = 2.4;
constexpr double wordsSize = 2;
constexpr double afterTitle = 3;
constexpr double betweenLines = 1.0;
constexpr double beforeExcerpt = 2.5;
/// Between a heading and what stands highest over its music.
constexpr double behindHeading = 1.3;

/// Fills pages from above with titles and lines of music.
class PageStack {
public:
    explicit PageStack(const EngravingOptions& wanted) : options(wanted) { startPage(); }

    void addTitle(const std::string& title) {
        if (title.empty()) return;
        addText(title, titleSize, TextRole::Title, TextAnchor::Centre, options.pageWidth / 2);
        at += afterTitle;
    }

    /// Headings stay with the first line of their music.
    void addExcerpt(const PageExcerpt& excerpt, const std::vector<EngravedSystem>& systems) {
        for (std::size_t i = 0; i < systems.size(); ++i) {
            const double above = i == 0 ? headingHeight(excerpt) : 0;
            if (!fits(above + systems[i].extent.height()) && !isEmpty) startPage();
            if (i == 0) addHeading(excerpt);
            addSystem(systems[i]);
        }
    }

    std::vector<EngravedPage> take() {
        if (!options.pageHeight) pages.back().height = at - options.systemGap + options.margin;
        return std::move(pages);
    }

private:
    void startPage() {
        EngravedPage page;
        page.width = options.pageWidth;
        page.height = options.pageHeight.value_or(0);
        pages.push_back(std::move(page));
        at = options.margin;
        isEmpty = true;
    }

    bool fits(double height) const {
        return !options.pageHeight || at + height <= *options.pageHeight - options.margin;
    }

    void addText(const std::string& text, double size, TextRole role, TextAnchor anchor, double x) {
        pages.back().shapes.texts.push_back({text, {x, at + size}, size, role, anchor, {}});
        at += size;
    }

    static double headingHeight(const PageExcerpt& excerpt) {
        if (excerpt.heading.empty() && excerpt.words.empty()) return 0;
        return (excerpt.heading.empty() ? 0 : headingSize + betweenLines) +
               (excerpt.words.empty() ? 0 : wordsSize + betweenLines) + behindHeading;
    }

    void addHeading(const PageExcerpt& excerpt) {
        if (!isEmpty) at += beforeExcerpt;
        if (!excerpt.heading.empty()) {
            addText(excerpt.heading, headingSize, TextRole::PhraseName, TextAnchor::Left, options.margin);
            at += betweenLines;
        }
        if (!excerpt.words.empty()) {
            addText(excerpt.words, wordsSize, TextRole::Words, TextAnchor::Left, options.margin);
            at += betweenLines;
        }
        if (!excerpt.heading.empty() || !excerpt.words.empty()) at += behindHeading;
    }

    void addSystem(const EngravedSystem& system) {
        const PagePoint origin{options.margin, at - system.extent.top};
        EngravedPage& page = pages.back();
        page.shapes.append(system.shapes, origin);
        for (const NoteBox& box : system.notes)
            page.notes.push_back({box.note, box.box.moved(origin)});
        at += system.extent.height() + options.systemGap;
        isEmpty = false;
    }

    const EngravingOptions& options;
    std::vector<EngravedPage> pages;
    double at = 0;
    bool isEmpty = true;
};

} // namespace

Result<std::vector<EngravedPage>> engravePages(const Study& study, const EngravingOptions& options,
                                               const FontMetrics& font) {
    std::vector<PageExcerpt> excerpts = options.excerpts;
    if (excerpts.empty()) excerpts.push_back(wholeStudy(study));
    PageStack stack(options);
    if (options.title) stack.addTitle(study.title);
    for (const PageExcerpt& excerpt : excerpts) {
        const auto systems = engraveSystems(study, excerpt, options, font);
        if (!systems) return systems.error();
        stack.addExcerpt(excerpt, *systems);
    }
    return stack.take();
}

} // namespace earwright
