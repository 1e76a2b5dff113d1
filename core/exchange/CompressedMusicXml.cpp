#include "core/exchange/CompressedMusicXml.h"

#include "core/exchange/MusicXmlReading.h"
#include "core/exchange/XmlGuard.h"
#include "core/exchange/XmlText.h"

#include <array>
#include <memory>
#include <pugixml.hpp>
#include <vector>
#include <zip.h>

namespace earwright {

namespace {

constexpr const char* mediaType = "application/vnd.recordare.musicxml";
constexpr const char* containerName = "META-INF/container.xml";
constexpr std::size_t mostFiles = 1'000;
constexpr std::size_t largestContainerBytes = 64u << 10;

struct Discard {
    void operator()(zip_t* archive) const { zip_discard(archive); }
    void operator()(zip_file_t* file) const { zip_fclose(file); }
};
using Archive = std::unique_ptr<zip_t, Discard>;
using ArchivedFile = std::unique_ptr<zip_file_t, Discard>;

Error malformed(const std::string& name, const std::string& reason) {
    return {ErrorKind::Malformed,
            name + " cannot be opened: " + reason +
                ". Write it anew from the program it comes from, or as plain MusicXML.",
            ""};
}

/// An archive made to keep us busy has more; counted before anything is set up for each.
bool hasTooManyFiles(std::string_view bytes) {
    std::size_t files = 0;
    for (std::size_t at = bytes.find("PK\1\2"); at != std::string_view::npos;
         at = bytes.find("PK\1\2", at + 4))
        if (++files > mostFiles) return true;
    return false;
}

bool leadsOut(std::string_view path) {
    return path.empty() || path.front() == '/' || path.find('\\') != std::string_view::npos || path == ".." ||
           path.starts_with("../") || path.ends_with("/..") || path.find("/../") != std::string_view::npos;
}

/// What the archive says that the file's size is.
bool isOfSize(zip_t* archive, const std::string& path, std::size_t size) {
    zip_stat_t said;
    return zip_stat(archive, path.c_str(), ZIP_FL_ENC_UTF_8, &said) == 0 &&
           (said.valid & ZIP_STAT_SIZE) != 0 && said.size == size;
}

/// Whole; libzip checks its checksum at its end.
Result<std::string> contentOf(zip_t* archive, const std::string& path, std::size_t largest,
                              const std::string& name) {
    const ArchivedFile file(zip_fopen(archive, path.c_str(), ZIP_FL_ENC_UTF_8));
    if (!file) return malformed(name, "its file " + path + " is missing or cannot be unpacked");
    std::string content;
    std::array<char, 1 << 14> block{};
    for (;;) {
        const zip_int64_t count = zip_fread(file.get(), block.data(), block.size());
        const bool isWrong = count < 0 || (count == 0 && !isOfSize(archive, path, content.size()));
        if (isWrong) return malformed(name, "its file " + path + " is damaged");
        if (count == 0) return content;
        content.append(block.data(), static_cast<std::size_t>(count));
        if (content.size() > largest)
            return malformed(name, "its file " + path + " is far too large for a line of notes");
    }
}

bool isScoreType(std::string_view type) {
    return type.empty() || type == "application/vnd.recordare.musicxml+xml";
}

/// Error: the container is damaged or names no score.
Result<std::string> scoreNamedIn(const std::string& container, const std::string& name) {
    const auto text = utf8Xml(container);
    pugi::xml_document document;
    if (!text || whyNotToParse(*text) ||
        !document.load_buffer(text->data(), text->size(), pugi::parse_default, pugi::encoding_utf8))
        return malformed(name, "its list of contents is damaged");
    for (const pugi::xml_node root : document.child("container").child("rootfiles").children("rootfile")) {
        if (!isScoreType(root.attribute("media-type").value())) continue;
        const std::string path = root.attribute("full-path").value();
        if (leadsOut(path)) return malformed(name, "its list of contents names a file outside of it");
        return path;
    }
    return malformed(name, "its list of contents names no score");
}

/// Programs that leave out the container put the score there by itself.
Result<std::string> onlyScore(zip_t* archive, const std::string& name) {
    std::vector<std::string> scores;
    for (zip_int64_t i = 0; i < zip_get_num_entries(archive, 0); ++i) {
        const char* entry = zip_get_name(archive, static_cast<zip_uint64_t>(i), ZIP_FL_ENC_GUESS);
        const std::string path = entry ? entry : "";
        const bool isScore = path.ends_with(".musicxml") || path.ends_with(".xml");
        if (isScore && !path.starts_with("META-INF/") && !path.starts_with("__MACOSX/"))
            scores.push_back(path);
    }
    if (scores.size() == 1) return scores.front();
    return malformed(name, scores.empty() ? "there is no score in it"
                                          : "it does not say which of its scores is meant");
}

Result<Archive> opened(std::string_view bytes, const std::string& name) {
    zip_error_t problem;
    zip_error_init(&problem);
    zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &problem);
    zip_t* archive = source ? zip_open_from_source(source, ZIP_RDONLY, &problem) : nullptr;
    if (source && !archive) zip_source_free(source);
    zip_error_fini(&problem);
    if (!archive) return malformed(name, "it is no archive, or a damaged one");
    return Archive(archive);
}

/// False where there is no memory.
bool add(zip_t* archive, const char* path, const std::string& content, bool isStored) {
    zip_source_t* source = zip_source_buffer(archive, content.data(), content.size(), 0);
    if (!source) return false;
    const zip_int64_t index = zip_file_add(archive, path, source, ZIP_FL_ENC_UTF_8);
    if (index < 0) {
        zip_source_free(source);
        return false;
    }
    const auto place = static_cast<zip_uint64_t>(index);
    // The same notes make the same bytes: the earliest time a zip archive can tell, 1980.
    constexpr zip_uint16_t firstDay = 1 << 5 | 1;
    return zip_set_file_compression(archive, place, isStored ? ZIP_CM_STORE : ZIP_CM_DEFLATE, 0) == 0 &&
           zip_file_set_dostime(archive, place, 0, firstDay, 0) == 0;
}

std::string containerFor(const std::string& scoreName) {
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<container>\n  <rootfiles>\n    <rootfile "
           "full-path=\"" +
           scoreName +
           "\" media-type=\"application/vnd.recordare.musicxml+xml\"/>\n  </rootfiles>\n</container>\n";
}

/// What the source holds once the archive is closed.
Result<std::string> bytesOf(zip_source_t* source) {
    zip_stat_t size;
    if (zip_source_stat(source, &size) != 0 || zip_source_open(source) != 0)
        return Error{ErrorKind::NotWritable, "The archive cannot be put together.", ""};
    std::string bytes(size.size, '\0');
    const zip_int64_t count = zip_source_read(source, bytes.data(), bytes.size());
    zip_source_close(source);
    if (count != static_cast<zip_int64_t>(bytes.size()))
        return Error{ErrorKind::NotWritable, "The archive cannot be put together.", ""};
    return bytes;
}

} // namespace

bool isArchive(std::string_view bytes) {
    return bytes.starts_with("PK\3\4") || bytes.starts_with("PK\5\6");
}

Result<std::string> compressed(const std::string& musicXml, const std::string& scoreName) {
    const Error failure{ErrorKind::NotWritable, "The archive cannot be put together.", ""};
    const std::string type = mediaType;
    const std::string container = containerFor(scoreName);
    zip_error_t problem;
    zip_error_init(&problem);
    zip_source_t* source = zip_source_buffer_create(nullptr, 0, 0, &problem);
    if (!source) return failure;
    const std::unique_ptr<zip_source_t, void (*)(zip_source_t*)> held(source, zip_source_free);
    // The archive takes one hold of the source, we keep ours to read from it afterwards.
    zip_source_keep(source);
    Archive archive(zip_open_from_source(source, ZIP_TRUNCATE, &problem));
    if (!archive) {
        zip_source_free(source);
        return failure;
    }
    if (!add(archive.get(), "mimetype", type, true) || !add(archive.get(), containerName, container, false) ||
        !add(archive.get(), scoreName.c_str(), musicXml, false) || zip_close(archive.get()) != 0)
        return failure;
    static_cast<void>(archive.release()); // closed
    return bytesOf(source);
}

Result<std::string> musicXmlIn(std::string_view bytes, const std::string& name) {
    if (hasTooManyFiles(bytes)) return malformed(name, "it has more than a thousand files");
    const auto archive = opened(bytes, name);
    if (!archive) return archive.error();
    zip_t* files = archive->get();
    const bool hasContainer = zip_name_locate(files, containerName, ZIP_FL_ENC_UTF_8) >= 0;
    Result<std::string> path = onlyScore(files, name);
    if (hasContainer) {
        const auto container = contentOf(files, containerName, largestContainerBytes, name);
        if (!container) return container.error();
        path = scoreNamedIn(*container, name);
    }
    if (!path) return path.error();
    return contentOf(files, *path, largestMusicXmlBytes, name);
}

} // namespace earwright
