// What went wrong, said so that the person at the desk can do something about it.
#pragma once

#include <string>

namespace earwright {

/// Whose fault an error is, and so which exit code and which tone it gets.
enum class ErrorKind {
    NotFound,    ///< a file or device that should be there is not
    Unreadable,  ///< it is there, but may not or cannot be read
    Malformed,   ///< it was read, but is not what it should be
    Unsupported, ///< it is sound, but of a kind or version this program cannot take
    OutOfRange,  ///< a value outside its stated range
    NotWritable, ///< nothing could be written; what was there before is still there
    Device,      ///< the sound device refused, vanished or hangs
    Cancelled,   ///< the user called it off
};

/// An error as a value.
struct Error {
    ErrorKind kind = ErrorKind::Malformed;
    /// One sentence that names the file or device, the reason and, where there is one, the way out.
    std::string message;
    /// Where in the input, for example "line 12" or "notes[3].onset"; empty when it is all of it.
    std::string where;

    friend bool operator==(const Error&, const Error&) = default;
};

/// The whole message with its place, as shown in one line.
inline std::string describe(const Error& error) {
    return error.where.empty() ? error.message : error.message + " (" + error.where + ")";
}

} // namespace earwright
