// The words after a command: what stands alone, and options with their values.
#pragma once

#include "core/result/Result.h"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace earwright::batch {

/// Exit codes every command keeps to.
inline constexpr int exitDone = 0;
/// The input's fault: one sentence on stderr.
inline constexpr int exitInput = 1;
/// The command line's fault.
inline constexpr int exitUsage = 2;

/// Parsed command line of one command.
class Arguments {
public:
    /// `--name value` for each allowed option, everything else stands alone; `--` ends the options. A
    /// negative number is a value. Options among `pairs` take two values. Errors: an unknown option, one
    /// without value or given twice, or a wrong number of words standing alone.
    static Result<Arguments> parse(std::span<const std::string> words, std::size_t alone,
                                   const std::vector<std::string>& options,
                                   const std::vector<std::string>& pairs = {});

    const std::string& alone(std::size_t index) const { return words.at(index); }
    /// Of an option that takes two values, both with a space between.
    std::optional<std::string> text(std::string_view option) const;
    /// The option's number in [least, most], or the default where it is not given. Errors: OutOfRange.
    Result<double> number(std::string_view option, double least, double most, double byDefault) const;
    /// The same for an option that takes two numbers, the second greater; nothing where it is not given.
    Result<std::optional<std::pair<double, double>>> twoNumbers(std::string_view option, double least,
                                                                double most) const;

private:
    std::vector<std::string> words;
    std::map<std::string, std::string, std::less<>> values;
};

/// Prints the error in one sentence on stderr and returns the code, for `return complain(...)`.
int complain(const Error& error, int exitCode);

} // namespace earwright::batch
