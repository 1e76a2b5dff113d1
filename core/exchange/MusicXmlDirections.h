// What stands between the notes of a MusicXML page: chord symbols, tempo, words, dynamics, hairpins, swing.
#pragma once

#include "core/engraving/PageBars.h"
#include "core/engraving/PageView.h"
#include "core/study/Study.h"

#include <cstdint>
#include <functional>
#include <map>
#include <pugixml.hpp>
#include <string>
#include <vector>

namespace earwright {

/// Of the id that words for a swing have, so that they are not read back as words of the user's.
inline constexpr const char* swingIdPrefix = "swing";

/// Writes them bar by bar, in order of place. Threads: any, one at a time.
class MusicXmlDirections {
public:
    /// Requires: `study` and `bars` outlive this.
    MusicXmlDirections(const Study& study, const std::vector<PageBar>& bars, Reading reading);

    /// Every place that needs a whole number of divisions.
    std::vector<Beats> places() const;
    /// Of a length in beats.
    using Divisions = std::function<std::int64_t(const Beats&)>;
    /// Appends what stands in the stretch, at whose begin the measure has come, and what ends within it.
    void addBefore(pugi::xml_node measure, const Range<Beats>& stretch, const Divisions& divisions) const;
    /// Appends what ends here, where the measure has come.
    void addBehind(pugi::xml_node measure, const Beats& place) const;

private:
    using Write = std::function<void(pugi::xml_node measure, std::int64_t offset)>;
    struct Mark {
        Beats at;
        Write write;
        /// Belongs to what goes before.
        bool isEnd = false;
    };
    void addSymbols(const PageBar& bar, Reading reading);
    void addTempos();
    /// Quarters a minute.
    double tempoOf(const Range<Beats>& beats) const;
    Meter meterAt(const Beats& place) const;
    void put(const Beats& at, Write write, bool isEnd = false);
    bool soundsAt(const Beats& place, const std::string& tempo) const;
    void putTempoMark(const TempoMark& mark);
    void putSwing(const SwingChange& change);
    void putHairpin(const Hairpin& hairpin);
    std::vector<Mark>::const_iterator firstFrom(const Beats& place) const;

    const Study& study;
    const std::vector<PageBar>& bars;
    std::vector<Mark> marks;
    /// The tempos that beat marks give, where each begins, as they are written.
    std::map<Beats, std::string> sounding;
    std::size_t symbols = 0;
    std::size_t swings = 0;
};

} // namespace earwright
