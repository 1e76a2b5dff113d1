// The words in a MIDI file as UTF-8.
#pragma once

#include <string>
#include <string_view>

namespace earwright {

/// Standard MIDI Files 1.0 knows ASCII only, and programs write what their machine does: UTF-8 where the
/// bytes are (RFC 3629), else one character a byte (ISO 8859-1). Without zeros. Threads: any.
std::string midiText(std::string_view bytes);

} // namespace earwright
