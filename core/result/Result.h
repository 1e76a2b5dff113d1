// A value or the error that kept it from being made; C++20 has no std::expected.
#pragma once

#include "core/result/Error.h"

#include <cassert>
#include <utility>
#include <variant>

namespace earwright {

/// Either a T or an Error. Reading the side that is not there is a mistake of ours and asserts.
template <class T>
class [[nodiscard]] Result {
public:
    Result(T value) : outcome(std::in_place_index<0>, std::move(value)) {}
    Result(Error error) : outcome(std::in_place_index<1>, std::move(error)) {}

    bool ok() const { return outcome.index() == 0; }
    explicit operator bool() const { return ok(); }

    /// Requires: ok().
    const T& value() const& {
        assert(ok());
        return std::get<0>(outcome);
    }
    T& value() & {
        assert(ok());
        return std::get<0>(outcome);
    }
    T&& value() && {
        assert(ok());
        return std::get<0>(std::move(outcome));
    }

    const T& operator*() const& { return value(); }
    T& operator*() & { return value(); }
    T&& operator*() && { return std::move(*this).value(); }
    const T* operator->() const { return &value(); }
    T* operator->() { return &value(); }

    /// Requires: !ok().
    const Error& error() const {
        assert(!ok());
        return std::get<1>(outcome);
    }

private:
    std::variant<T, Error> outcome;
};

/// The result of something that is done for its effect.
struct Done {
    friend bool operator==(Done, Done) = default;
};

} // namespace earwright
