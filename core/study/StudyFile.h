// Study files: `*.study`, JSON as resources/study.schema.json describes it.
#pragma once

#include "core/result/Result.h"
#include "core/study/Study.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace earwright {

/// Reads and writes studies. What is written reads back as an equal study.
/// Threads: any; each call stands alone.
class StudyFile {
public:
    /// The version of the format this program writes, and the highest it reads. Version 1 had no
    /// takes; version 2 no page marks, fewer kinds of phrasing and only divisions into 2, 3, 4 and 6.
    static constexpr int version = 3;

    /// Errors: NotFound; Unreadable; Malformed, with line and column of broken JSON or the path of a wrong
    /// value ("notes[3].onset"); Unsupported for a file of a newer version. Nothing is repaired or left out,
    /// but for one thing that older programs wrote and nobody could see or hear: chords behind the end of a
    /// bar that is shorter than the first are dropped.
    static Result<Study> read(const std::filesystem::path& path);
    /// The same from text; `name` stands for the file in messages.
    static Result<Study> parse(std::string_view text, const std::string& name);

    /// The whole file as text: UTF-8, each note and mark on a line of its own. Bytes that are not UTF-8
    /// become U+FFFD.
    static std::string text(const Study& study);
    /// The same, to be written to a file, once it was read back and is the study, save for bytes that were
    /// not UTF-8. Error: NotWritable, with the member that could not be read or would not be the same.
    static Result<std::string> checkedText(const Study& study, const std::filesystem::path& path);
    /// Puts checkedText() in place of the file at once (see replaceFile). Error: NotWritable; the old file is
    /// then untouched.
    static Result<Done> write(const Study& study, const std::filesystem::path& path);
};

} // namespace earwright
