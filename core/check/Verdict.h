// The three answers of the check for a written note.
#pragma once

namespace earwright {

/// Whether the recording bears out what is written. `Unclear` is an honest answer for a note the band covers.
enum class Verdict { Supported, Unclear, Contradicted };

/// "supported", "unclear" or "contradicted": the words of the desk and of the headless tool.
const char* toString(Verdict verdict);

} // namespace earwright
