#include "core/engraving/Engraving.h"
#include "core/engraving/SignedText.h"
#include "core/engraving/TuningWords.h"

#include <algorithm>
#include <string>

namespace earwright {

namespace {

constexpr double titleSize = 4;
constexpr double headingSize = 2.4;
constexpr double wordsSize = 2;
constexpr double numberSize = 1.8;
constexpr double afterTitle = 3;
constexpr double behindTuning = 2;
constexpr double betweenLines = 1.0;
constexpr double beforeExcerpt = 2.5;
/// Between a heading and what stands highest over its music; a line of text under it needs more room than the
/// heading does, so that it is not read as words to the music.
constexpr double behindHeading = 1.3;
constexpr double behindWords = 2.4;
/// More room than this between two lines of music would tear the page apart.
constexpr double mostStretch = 8;

/// Fills pages from above with titles and lines of music.
class PageStack {
public:
    explicit PageStack(const EngravingOptions& wanted) : options(wanted) { startPage(); }

    void addTitle(const std::string& title) {
        if (title.empty()) return;
        addText(title, titleSize, TextRole::Title, TextAnchor::Centre, options.pageWidth / 2);
        at += afterTitle;
    }

    /// Under the title, at the left (common practice).
    void addTuning(const StringTuning& tuning, const FontMetrics& font) {
        const std::string words = tuningWords(tuning);
        if (words.empty()) return;
        at += wordsSize;
        blocks.emplace_back().shapes.append(signedText(words, wordsSize, TextRole::Words, font).shapes,
                                            {options.margin, at});
        at += behindTuning;
    }

    /// Headings stay with the first line of their music.
    void addExcerpt(const PageExcerpt& excerpt, const std::vector<EngravedSystem>& systems) {
        for (std::size_t i = 0; i < systems.size(); ++i) {
            const double above = i == 0 ? headingHeight(excerpt) + (isEmpty ? 0 : beforeExcerpt) : 0;
            if (!fits(above + systems[i].extent.height()) && !isEmpty) {
                endPage(true);
                startPage();
            }
            if (i == 0) addHeading(excerpt);
            addSystem(systems[i]);
        }
    }

    std::vector<EngravedPage> take() {
        endPage(false);
        if (!options.pageHeight) pages.back().height = at - options.systemGap + options.margin;
        if (pages.size() > 1) numberPages();
        return std::move(pages);
    }

private:
    /// In the middle of the foot's margin.
    void numberPages() {
        for (std::size_t i = 0; i < pages.size(); ++i) {
            const PagePoint foot{options.pageWidth / 2, pages[i].height - options.margin / 2};
            pages[i].shapes.texts.push_back(
                {std::to_string(i + 1), foot, numberSize, TextRole::PageFoot, TextAnchor::Centre, {}});
        }
    }

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

    /// Draws what stands on the page; a full one reaches down to its lower margin (common practice), as far
    /// as its lines would not be torn apart.
    void endPage(bool isFull) {
        const auto gaps =
            std::count_if(blocks.begin(), blocks.end(), [](const Block& block) { return block.gives; });
        double by = 0;
        if (isFull && gaps > 0) {
            const double left = *options.pageHeight - options.margin - (at - options.systemGap);
            by = std::clamp(left / static_cast<double>(gaps), 0.0, mostStretch);
        }
        EngravedPage& page = pages.back();
        double down = 0;
        for (const Block& block : blocks) {
            if (block.gives) down += by;
            page.shapes.append(block.shapes, {0, down});
            for (const NoteBox& box : block.notes)
                page.notes.push_back({box.note, box.box.moved({0, down})});
        }
        blocks.clear();
    }

    void addText(const std::string& text, double size, TextRole role, TextAnchor anchor, double x) {
        blocks.emplace_back().shapes.texts.push_back({text, {x, at + size}, size, role, anchor, {}});
        at += size;
    }

    static double headingHeight(const PageExcerpt& excerpt) {
        if (excerpt.heading.empty() && excerpt.words.empty()) return 0;
        return (excerpt.heading.empty() ? 0 : headingSize + betweenLines) +
               (excerpt.words.empty() ? behindHeading : wordsSize + betweenLines + behindWords);
    }

    void addHeading(const PageExcerpt& excerpt) {
        const bool gives = !isEmpty;
        const std::size_t first = blocks.size();
        if (!isEmpty) at += beforeExcerpt;
        if (!excerpt.heading.empty()) {
            addText(excerpt.heading, headingSize, TextRole::PhraseName, TextAnchor::Left, options.margin);
            at += betweenLines;
        }
        if (!excerpt.words.empty()) {
            addText(excerpt.words, wordsSize, TextRole::Words, TextAnchor::Left, options.margin);
            at += betweenLines;
        }
        if (!excerpt.words.empty())
            at += behindWords;
        else if (!excerpt.heading.empty())
            at += behindHeading;
        isHeaded = blocks.size() > first;
        if (isHeaded) blocks[first].gives = gives;
    }

    void addSystem(const EngravedSystem& system) {
        const PagePoint origin{options.margin, at - system.extent.top};
        Block& block = blocks.emplace_back();
        block.gives = !isEmpty && !isHeaded;
        block.shapes.append(system.shapes, origin);
        for (const NoteBox& box : system.notes)
            block.notes.push_back({box.note, box.box.moved(origin)});
        isHeaded = false;
        at += system.extent.height() + options.systemGap;
        isEmpty = false;
    }

    /// A line of text or of music, where it stands on a page that is not stretched.
    struct Block {
        PlacedShapes shapes;
        std::vector<NoteBox> notes;
        /// There may be more room before it.
        bool gives = false;
    };

    const EngravingOptions& options;
    std::vector<EngravedPage> pages;
    /// Of the last page.
    std::vector<Block> blocks;
    /// The next line of music stands under its heading.
    bool isHeaded = false;
    double at = 0;
    bool isEmpty = true;
};

} // namespace

Result<std::vector<EngravedPage>> engravePages(const Study& study, const EngravingOptions& options,
                                               const FontMetrics& font) {
    std::vector<PageExcerpt> excerpts = options.excerpts;
    if (excerpts.empty()) excerpts.push_back(wholeStudy(study));
    PageStack stack(options);
    if (options.title) {
        stack.addTitle(study.title);
        if (options.strings > 0) stack.addTuning(study.tuning, font);
    }
    for (const PageExcerpt& excerpt : excerpts) {
        const auto systems = engraveSystems(study, excerpt, options, font);
        if (!systems) return systems.error();
        stack.addExcerpt(excerpt, *systems);
    }
    return stack.take();
}

} // namespace earwright
