// A thin layer over SQLite: `$1` places, values, rows, kinds of fault. Nothing else includes the
// library. Inside this module a fault is thrown as Failure; Store turns it into an Error.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/result.hpp"

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace benchgraft::store {

enum class Fault {
  unique,
  not_null,
  foreign_key,
  check,  ///< a CHECK, a wrong type, or a trigger that refuses
  busy,
  read_only,
  cannot_open,
  not_a_database,
  damaged,
  full,
  other,
};

struct Failure {
  Fault fault = Fault::other;
  std::string text;  ///< what SQLite says
};

/// The failure as one sentence about the file `path`.
Error error_of(const Failure& failure, const std::string& path);

using Value = std::variant<std::nullptr_t, std::int64_t, double, std::string>;

/// One row of an answer; columns count from 0.
class Row {
 public:
  explicit Row(SQLite::Statement& statement) : statement_(statement) {}
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::int64_t whole(int column) const;
  [[nodiscard]] bool is_null(int column) const;
  [[nodiscard]] std::optional<double> number(int column) const;

 private:
  SQLite::Statement& statement_;
};

enum class Access { create, write, read, read_unchanging };

class Connection {
 public:
  /// Waits up to `wait_ms` for others. `read_unchanging`: nobody writes the file meanwhile.
  Connection(const std::string& path, Access access, int wait_ms);
  Connection(Connection&&) noexcept;
  ~Connection();

  /// Several statements without values.
  void run(const std::string& script);
  /// One statement; `values` go to $1, $2, ... Returns how many rows it changed.
  int execute(const std::string& sql, const std::vector<Value>& values = {});
  /// Calls `take` for each row. `take` must not ask the same `sql` again.
  void each(const std::string& sql, const std::vector<Value>& values,
            const std::function<void(const Row&)>& take);
  /// First column of the first row.
  std::optional<std::int64_t> whole(const std::string& sql, const std::vector<Value>& values = {});
  [[nodiscard]] std::int64_t last_row() const;
  /// The whole file, as it is committed now, into a new file.
  void copy_to(const std::string& path);

 private:
  SQLite::Statement& prepared(const std::string& sql, const std::vector<Value>& values);

  std::unique_ptr<SQLite::Database> database_;
  std::map<std::string, std::unique_ptr<SQLite::Statement>> statements_;
};

/// Takes everything back unless commit() was reached.
class Transaction {
 public:
  enum class Sort { reading, writing };
  Transaction(Connection& connection, Sort sort);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Connection& connection_;
  bool open_ = true;
};

}  // namespace benchgraft::store
