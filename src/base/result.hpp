// A value, or the one sentence that says why there is none.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "base/ensure.hpp"

namespace benchgraft {

/// What sort of failure it was; the command line turns it into its exit code.
enum class ErrorKind {
  bad_input,  ///< a file, a value or a command that says something impossible
  not_found,  ///< a named thing is not there
  conflict,   ///< against what is already recorded (two parts in one place, later work depends)
  storage,    ///< disk, permission, database
  too_new,    ///< written by a newer version of the program
  limit,      ///< larger than this program accepts
};

struct Error {
  ErrorKind kind = ErrorKind::bad_input;
  std::string message;  ///< one sentence: what, where, the value, the mend
};

/// Either a T or an Error. Asking for the wrong one is a programming mistake.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value)
      : held_(std::move(value)) {}  // NOLINT(google-explicit-constructor): return value;
  Result(Error error)
      : held_(std::move(error)) {}  // NOLINT(google-explicit-constructor): return Error{};

  [[nodiscard]] bool ok() const { return held_.index() == 0; }
  explicit operator bool() const { return ok(); }
  [[nodiscard]] const T& value() const& {
    ensure(ok(), "value() of a failed result");
    return std::get<0>(held_);
  }
  [[nodiscard]] T& value() & {
    ensure(ok(), "value() of a failed result");
    return std::get<0>(held_);
  }
  [[nodiscard]] T&& value() && {
    ensure(ok(), "value() of a failed result");
    return std::get<0>(std::move(held_));
  }
  [[nodiscard]] const Error& error() const {
    ensure(!ok(), "error() of a good result");
    return std::get<1>(held_);
  }

 private:
  std::variant<T, Error> held_;
};

/// Success without a value, or an Error.
template <>
class [[nodiscard]] Result<void> {
 public:
  Result() = default;
  Result(Error error) : error_(std::move(error)) {}  // NOLINT(google-explicit-constructor)
  [[nodiscard]] bool ok() const { return !error_; }
  explicit operator bool() const { return ok(); }
  [[nodiscard]] const Error& error() const {
    ensure(!ok(), "error() of a good result");
    return *error_;
  }

 private:
  std::optional<Error> error_;
};

}  // namespace benchgraft
