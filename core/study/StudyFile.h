// Study files: `*.study`, JSON as resources/study.schema.json describes it.
#pragma once

#include "core/result/Result.h"
#include "core/study/Study.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace earwright {

/// Reads and writes studies. Writing and reading back gives an equal study.
/// Threads: any; each call stands alone.
class StudyFile {
public:
    /// The version of the format this program writes, and the highest it reads. Version 1 had no
    /// takes; version 2 no page marks, fewer kinds of phrasing and only divisions into 2, 3, 4 and 6.
    static constexpr int version = 3;

    /// Errors: NotFound; Unreadable; Malformed, with line and column of broken JSON or the path of a wrong
    /// value
    /// ("notes[3].onset"); Unsupported for a file of a newer version. Nothing is repaired or left out in
    /// silence.
    static Result<Study> read(const std::filesystem::path& path);
    /// The same from text; `name` stands for the file in messages.
    static Result<Study> parse(std::string_view text, const std::string& name);

    /// The whole file as text: UTF-8, each note and mark on a line of its own.
    static std::string text(const Study& study);
    /// Puts the study in place of the file at once (see replaceFile). Error: NotWritable; the old file is
    /// then untouched. A study that could not be read back is not written.
    static Result<Done> write(const Study& study, const std::filesystem::path& path);
};

} // namespace earwright
