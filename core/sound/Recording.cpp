#include "core/sound/Recording.h"

#include "core/sound/Completeness.h"
#include "core/sound/PagedRecording.h"
#include "core/sound/SoundFile.h"

namespace earwright {

Result<std::shared_ptr<Recording>> Recording::open(const std::filesystem::path& path,
                                                   const std::stop_token& stop) {
    auto file = SoundFile::open(path, stop);
    if (!file) return file.error();
    // FLAC has no outer size to compare: only the last frame itself tells.
    if (!(*file)->isWhole()) return cutShort(path);
    return std::shared_ptr<Recording>(std::make_shared<PagedRecording>(path, std::move(*file)));
}

} // namespace earwright
