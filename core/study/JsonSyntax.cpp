#include "core/study/JsonSyntax.h"

#include <algorithm>
#include <optional>
#include <set>
#include <vector>

namespace earwright {

namespace {

using nlohmann::json;

constexpr std::size_t deepestNesting = 64;

std::string lineAndColumn(std::string_view text, std::size_t byte) {
    const std::string_view before = text.substr(0, std::min(byte > 0 ? byte - 1 : 0, text.size()));
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const std::size_t lineStart = before.rfind('\n') + 1;
    return "line " + std::to_string(line) + ", column " + std::to_string(before.size() - lineStart + 1);
}

/// Walks through a text without keeping its values, and stops at the first thing to refuse.
class SyntaxCheck : public nlohmann::json_sax<json> {
public:
    SyntaxCheck(std::string_view checked, const std::string& file) : text(checked), name(file) {}

    std::optional<Error> problem;

    bool null() override { return value(); }
    bool boolean(bool) override { return value(); }
    bool number_integer(number_integer_t) override { return value(); }
    bool number_unsigned(number_unsigned_t) override { return value(); }
    bool number_float(number_float_t, const string_t&) override { return value(); }
    bool string(string_t&) override { return value(); }
    bool binary(binary_t&) override { return value(); }
    bool start_object(std::size_t) override { return open(true); }
    bool end_object() override { return close(); }
    bool start_array(std::size_t) override { return open(false); }
    bool end_array() override { return close(); }

    bool key(string_t& member) override {
        levels.back().member = member;
        if (levels.back().members.insert(member).second) return true;
        return refuse("the member “" + member + "” stands twice", place());
    }

    bool parse_error(std::size_t byte, const std::string&,
                     const nlohmann::detail::exception& error) override {
        // 406 of nlohmann-json: a number beyond the range of a double.
        const bool isBlank = text.find_first_not_of(" \t\r\n") == std::string_view::npos;
        const bool breaksOff = byte > text.size();
        const char* reason = isBlank           ? "there is nothing in it"
                             : error.id == 406 ? "a number is too large"
                             : breaksOff       ? "it breaks off in the middle"
                                               : "this is not valid JSON";
        return refuse(reason, lineAndColumn(text, byte));
    }

private:
    struct Level {
        bool isObject;
        std::set<std::string> members;
        std::string member;
        std::size_t index = 0;
    };

    bool value() {
        if (!levels.empty()) ++levels.back().index;
        return true;
    }

    bool open(bool isObject) {
        if (levels.size() == deepestNesting) return refuse("values are nested too deeply", place());
        levels.push_back({isObject, {}, {}, 0});
        return true;
    }

    bool close() {
        levels.pop_back();
        return value();
    }

    std::string place() const {
        std::string path;
        for (const Level& level : levels) {
            if (!level.isObject)
                path += "[" + std::to_string(level.index) + "]";
            else
                path += (path.empty() ? "" : ".") + level.member;
        }
        return path;
    }

    bool refuse(const std::string& reason, const std::string& where) {
        problem =
            Error{ErrorKind::Malformed,
                  name + ": " + reason + ". The file stays as it is; take an earlier copy of it.", where};
        return false;
    }

    std::string_view text;
    const std::string& name;
    std::vector<Level> levels;
};

} // namespace

Result<json> parseJson(std::string_view text, const std::string& name) {
    SyntaxCheck check(text, name);
    json::sax_parse(text, &check);
    if (check.problem) return *check.problem;
    return json::parse(text, nullptr, false);
}

} // namespace earwright
