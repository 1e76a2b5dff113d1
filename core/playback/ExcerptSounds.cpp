#include "core/playback/ExcerptSounds.h"

#include "core/engine/Excerpt.h"
#include "core/engine/Limiter.h"
#include "core/engine/WrittenPart.h"
#include "core/playback/TimedNotes.h"
#include "core/sound/SoundFileWriter.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace earwright {

namespace {

namespace fs = std::filesystem;

constexpr std::int64_t blockFrames = 1024;
/// The last note dies away.
constexpr Seconds ringing{1.0};

/// Of one example.
struct ExampleFiles {
    fs::path record;
    /// Where there is one.
    std::optional<fs::path> slower;
    fs::path notes;
};

ExampleFiles exampleFiles(const ExcerptWish& wish, const fs::path& sheet, std::size_t index) {
    fs::path base = sheet;
    base.replace_extension();
    if (wish.spans.size() > 1) base += "-example-" + std::to_string(index + 1);
    const auto named = [&](const std::string& ending) { return fs::path(base) += ending + ".wav"; };
    ExampleFiles files{named(""), std::nullopt, named("-notes")};
    if (wish.speed != 1) files.slower = named("-" + std::to_string(std::lround(wish.speed * 100)));
    return files;
}

class Sounds {
public:
    Sounds(const Study& written, std::shared_ptr<Recording> record, const ExcerptWish& wanted,
           const std::function<void(double)>& toTell, const std::stop_token& toObey)
        : study(written), recording(std::move(record)), wish(wanted), report(toTell), stop(toObey) {
        // A pickup may begin before the recording does, and a phrase be drawn past its end.
        for (const Range<Seconds>& span : wish.spans)
            spans.push_back({std::max(span.begin, Seconds(0)), std::min(span.end, recording->duration())});
        for (const Range<Seconds>& span : spans)
            all += framesOf(span, 1) + (wish.speed != 1 ? framesOf(span, wish.speed) : 0) +
                   framesOf(ringingOn(span), 1);
    }

    Result<std::vector<fs::path>> write(const fs::path& sheet) {
        std::vector<fs::path> files = excerptSoundFiles(wish, sheet);
        if (const auto failure = refusal(files)) return *failure;
        for (std::size_t i = 0; i < spans.size(); ++i)
            if (const auto failure = writeSpan(spans[i], exampleFiles(wish, sheet, i))) return *failure;
        return files;
    }

private:
    /// Why nothing may be written. Asked before anything is.
    std::optional<Error> refusal(const std::vector<fs::path>& files) const {
        for (const Range<Seconds>& span : spans)
            if (span.end <= span.begin)
                return Error{ErrorKind::OutOfRange,
                             "An example lies outside of " + recording->path().string() +
                                 "; mark its phrase anew, within the recording.",
                             ""};
        for (const fs::path& file : files) {
            // Where either does not exist they are not the same.
            std::error_code missing;
            if (fs::equivalent(file, recording->path(), missing))
                return Error{
                    ErrorKind::NotWritable,
                    file.string() +
                        " is the recording itself, which is never changed; name the sheet otherwise.",
                    ""};
        }
        return std::nullopt;
    }

    static Range<Seconds> ringingOn(const Range<Seconds>& span) { return {span.begin, span.end + ringing}; }
    std::int64_t framesOf(const Range<Seconds>& span, double speed) const {
        return std::llround((span.end - span.begin).value / speed * recording->rate().hertz);
    }

    std::optional<Error> writeSpan(const Range<Seconds>& span, const ExampleFiles& files) {
        if (const auto failure = writeRecord(span, files.record, 1)) return failure;
        if (files.slower)
            if (const auto failure = writeRecord(span, *files.slower, wish.speed)) return failure;
        return writeNotes(ringingOn(span), files.notes);
    }

    std::optional<Error> writeRecord(const Range<Seconds>& span, const fs::path& file, double speed) {
        const std::int64_t frames = framesOf(span, speed);
        return writeFile(file, recording->channels(), frames, [&](const ExcerptSink& sink) {
            Playing playing;
            playing.speed = speed;
            return renderExcerpt(recording, recording->rate().frames(span.begin), frames, playing, sink);
        });
    }

    std::optional<Error> writeNotes(const Range<Seconds>& span, const fs::path& file) {
        const std::int64_t frames = framesOf(span, 1);
        return writeFile(file, 1, frames,
                         [&](const ExcerptSink& sink) { return renderNotes(span, frames, sink); });
    }

    Result<Done> renderNotes(const Range<Seconds>& span, std::int64_t frames, const ExcerptSink& sink) const {
        std::vector<TimedNote> notes = timedNotes(study);
        // Only what begins here; a note held over from before would be heard without its beginning.
        const Range<Frames> places{recording->rate().frames(span.begin),
                                   recording->rate().frames(span.end - ringing)};
        std::erase_if(notes, [&](const TimedNote& note) { return !places.contains(note.onset); });
        WrittenPart part;
        WrittenPart::Start start;
        start.tags = TimeTags(static_cast<double>(places.begin.value), 1, std::nullopt, 0);
        start.semitones = wish.tuningCents / 100;
        start.recordingRate = start.outputRate = recording->rate();
        part.start(start, noteListOf(std::move(notes)));
        Limiter limiter;
        limiter.setRate(recording->rate());
        std::vector<float> block(static_cast<std::size_t>(blockFrames));
        for (std::int64_t done = 0; done < frames; done += blockFrames) {
            const auto samples =
                std::span(block).first(static_cast<std::size_t>(std::min(blockFrames, frames - done)));
            std::fill(samples.begin(), samples.end(), 0.0f);
            part.produce(samples);
            for (float& sample : samples) {
                float other = sample;
                limiter.apply(sample, other);
            }
            if (const auto written = sink(samples); !written) return written;
        }
        return Done{};
    }

    template <class Render>
    std::optional<Error> writeFile(const fs::path& file, int channels, std::int64_t frames,
                                   const Render& render) {
        auto writer = SoundFileWriter::create(file, recording->rate(), channels, frames);
        if (!writer) return writer.error();
        const auto rendered = render([&](std::span<const float> block) -> Result<Done> {
            if (stop.stop_requested())
                return Error{ErrorKind::Cancelled, "Writing the sound of the examples was called off.", ""};
            made += static_cast<std::int64_t>(block.size()) / channels;
            if (report) report(std::min(1.0, static_cast<double>(made) / static_cast<double>(all)));
            return (*writer)->write(block);
        });
        if (!rendered) return rendered.error();
        const auto finished = (*writer)->finish();
        return finished ? std::nullopt : std::optional(finished.error());
    }

    const Study& study;
    std::shared_ptr<Recording> recording;
    const ExcerptWish& wish;
    const std::function<void(double)>& report;
    const std::stop_token& stop;
    std::vector<Range<Seconds>> spans;
    std::int64_t all = 0;
    std::int64_t made = 0;
};

} // namespace

std::vector<fs::path> excerptSoundFiles(const ExcerptWish& wish, const fs::path& sheet) {
    std::vector<fs::path> files;
    for (std::size_t i = 0; i < wish.spans.size(); ++i) {
        const ExampleFiles example = exampleFiles(wish, sheet, i);
        files.push_back(example.record);
        if (example.slower) files.push_back(*example.slower);
        files.push_back(example.notes);
    }
    return files;
}

std::vector<Range<Seconds>> excerptSpans(const Study& study, const std::vector<SpanId>& phrases) {
    std::vector<Range<Seconds>> spans;
    for (const Span& phrase : study.spansOf(SpanKind::Phrase))
        if (std::find(phrases.begin(), phrases.end(), phrase.id) != phrases.end())
            spans.push_back(phrase.range);
    if (spans.empty() && !study.notes.empty() && study.beatMap.hasTempo()) {
        Beats end = study.notes.front().end();
        for (const Note& note : study.notes)
            end = std::max(end, note.end());
        spans.push_back(playedTime(study, Range<Beats>{study.notes.front().onset, end}));
    }
    return spans;
}

Result<std::vector<fs::path>> writeExcerptSounds(const Study& study,
                                                 const std::shared_ptr<Recording>& recording,
                                                 const ExcerptWish& wish, const fs::path& sheet,
                                                 const std::function<void(double)>& report,
                                                 const std::stop_token& stop) {
    return Sounds(study, recording, wish, report, stop).write(sheet);
}

} // namespace earwright
