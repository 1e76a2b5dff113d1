// Whether a file is one of the containers that carry sound beside other things: MP4, Matroska, raw AAC.
#pragma once

#include <filesystem>

namespace earwright {

/// By its first bytes: an ISO base media file (ISO/IEC 14496-12: M4A, MP4, MOV, 3GP), a Matroska or WebM file
/// (RFC 8794) or AAC in ADTS frames (ISO/IEC 13818-7). False for what cannot be read.
bool isMediaContainer(const std::filesystem::path& path);

} // namespace earwright
