// Names and places of files as the desk shows and suggests them.
#pragma once

#include <QString>

#include <filesystem>
#include <vector>

namespace earwright::ui {

class DeskSession;

/// The same path for the core and for the interface. Threads: any.
std::filesystem::path pathOf(const QString& file);
QString textOf(const std::filesystem::path& path);
/// The file's name without its folder.
QString nameOf(const std::filesystem::path& path);
/// The names of several in one line; those after the fifth are counted.
QString namesOf(const std::vector<std::filesystem::path>& files);
/// What the open study is called, by its title or its file; a dash where it has neither, nothing where none
/// is open. Threads: from here on, interface only.
QString titleOf(const DeskSession& session);
/// Where a file dialog starts: beside the study, else beside the recording, else with the user's music.
QString startFolder(const DeskSession& session);
/// The file name offered for a study that has none.
QString suggestedFile(const DeskSession& session);
/// "*.wav *.flac …": what the recording's library reads.
QString soundFilePatterns();

} // namespace earwright::ui
