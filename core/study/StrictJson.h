// A JSON value at its place in a file, asked for exactly what it must be.
#pragma once

#include "core/result/Error.h"
#include "core/time/Beats.h"

#include <cstdint>
#include <initializer_list>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace earwright {

/// The first thing that is wrong with a file; later ones are its consequences and are not told.
class FirstProblem {
public:
    explicit FirstProblem(std::string file) : name(std::move(file)) {}
    /// Reason: what the value must be, as the end of a sentence that starts with its name.
    void report(const std::string& place, const std::string& reason);
    const std::optional<Error>& error() const { return first; }

private:
    std::string name;
    std::optional<Error> first;
};

/// One value. Every question either gets a value within the stated range or reports a problem and gets a
/// harmless stand-in, so that reading code has no branches for errors; whoever started asks the FirstProblem
/// at the end.
///
/// Ownership: borrows the JSON and the problem; both must outlive it.
class StrictJson {
public:
    StrictJson(const nlohmann::json& value, std::string place, FirstProblem& problem)
        : json(&value), path(std::move(place)), found(&problem) {}

    const std::string& place() const { return path; }
    /// Reports this value.
    void refuse(const std::string& reason) const { found->report(path, reason); }

    /// This must be an object with all members of the first list, and none that is in neither.
    void expectMembers(const std::vector<const char*>& required,
                       const std::vector<const char*>& optional = {}) const;
    bool has(const char* member) const { return json->is_object() && json->contains(member); }
    /// A member; one that is missing answers as null would.
    StrictJson operator[](const char* member) const;
    /// The items of an array.
    std::vector<StrictJson> items() const;

    double number(double least, double most) const;
    std::int64_t whole(std::int64_t least, std::int64_t most) const;
    bool boolean() const;
    /// Text without NUL.
    std::string text() const;
    /// A whole number, or "7/2": up to nine digits over up to three.
    Beats beats() const;
    /// One of some words.
    template <class Meaning>
    Meaning oneOf(std::initializer_list<std::pair<const char*, Meaning>> words) const {
        std::string reason = "must be one of";
        for (const auto& [word, meaning] : words) {
            if (json->is_string() && json->get_ref<const std::string&>() == word) return meaning;
            reason += std::string(" “") + word + "”";
        }
        refuse(reason);
        return words.begin()->second;
    }

private:
    const nlohmann::json* json;
    std::string path;
    FirstProblem* found;
};

} // namespace earwright
