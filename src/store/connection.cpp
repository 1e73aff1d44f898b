#include "store/connection.hpp"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <fmt/format.h>
#include <sqlite3.h>

namespace benchgraft::store {

namespace {

Fault constraint_fault(int extended) {
  switch (extended) {
    case SQLITE_CONSTRAINT_UNIQUE:
    case SQLITE_CONSTRAINT_PRIMARYKEY:
    case SQLITE_CONSTRAINT_ROWID:
      return Fault::unique;
    case SQLITE_CONSTRAINT_NOTNULL:
      return Fault::not_null;
    case SQLITE_CONSTRAINT_FOREIGNKEY:
      return Fault::foreign_key;
    default:
      return Fault::check;
  }
}

Fault fault_of(int code, int extended) {
  switch (code) {
    case SQLITE_CONSTRAINT:
      return constraint_fault(extended);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return Fault::busy;
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return Fault::read_only;
    case SQLITE_CANTOPEN:
      return Fault::cannot_open;
    case SQLITE_NOTADB:
      return Fault::not_a_database;
    case SQLITE_CORRUPT:
      return Fault::damaged;
    case SQLITE_FULL:
      return Fault::full;
    default:
      return Fault::other;
  }
}

Failure failure_of(const SQLite::Exception& thrown) {
  return {fault_of(thrown.getErrorCode() & 0xFF, thrown.getExtendedErrorCode()), thrown.what()};
}

// Runs `work`; what SQLiteCpp throws leaves as Failure.
template <class Work>
auto translated(Work work) {
  try {
    return work();
  } catch (const SQLite::Exception& thrown) {
    throw failure_of(thrown);
  }
}

int flags_of(Access access) {
  switch (access) {
    case Access::create:
      return SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE;
    case Access::write:
      return SQLite::OPEN_READWRITE;
    case Access::read:
      return SQLite::OPEN_READONLY;
    case Access::read_unchanging:
      return SQLite::OPEN_READONLY | SQLite::OPEN_URI;
  }
  return SQLite::OPEN_READONLY;
}

std::string address_of(const std::string& path, Access access) {
  if (access != Access::read_unchanging) return path;
  std::string address = "file:";
  for (const char c : path)
    if (c == '%' || c == '?' || c == '#')
      address += fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    else
      address += c;
  return address + "?immutable=1";
}

void bind(SQLite::Statement& statement, int place, const Value& value) {
  const std::string name = fmt::format("${}", place);
  if (const auto* whole = std::get_if<std::int64_t>(&value))
    statement.bind(name, *whole);
  else if (const auto* number = std::get_if<double>(&value))
    statement.bind(name, *number);
  else if (const auto* text = std::get_if<std::string>(&value))
    statement.bind(name, *text);
  else
    statement.bind(name.c_str());
}

}  // namespace

Error error_of(const Failure& failure, const std::string& path) {
  const auto storage = [&](const char* sentence) {
    return Error{ErrorKind::storage, fmt::format("{}: {}", path, sentence)};
  };
  switch (failure.fault) {
    case Fault::busy:
      return storage(
          "another program or page is writing to the shop just now; try again in a moment.");
    case Fault::read_only:
      return storage(
          "the shop cannot be written; give yourself the right to write the file and its folder, "
          "or copy it to a folder of your own.");
    case Fault::cannot_open:
      return storage(
          "the file cannot be opened; check that the folder is there and that you may read and "
          "write in it.");
    case Fault::not_a_database:
      return storage("this is not a shop file; give the file that was made by this program.");
    case Fault::damaged:
      return storage(
          "the file is damaged; keep a copy of it and go back to your newest good copy.");
    case Fault::full:
      return storage("the disk is full and nothing was changed; make room and try again.");
    case Fault::unique:
    case Fault::not_null:
    case Fault::foreign_key:
    case Fault::check:
      return {ErrorKind::conflict,
              fmt::format(
                  "{}: the change is against a rule of the shop's tables and was not made ({}).",
                  path, failure.text)};
    case Fault::other:
      break;
  }
  return {ErrorKind::storage,
          fmt::format("{}: the disk or the database refused ({}); nothing was changed.", path,
                      failure.text)};
}

std::string Row::text(int column) const { return statement_.getColumn(column).getString(); }
std::int64_t Row::whole(int column) const { return statement_.getColumn(column).getInt64(); }
bool Row::is_null(int column) const { return statement_.getColumn(column).isNull(); }
std::optional<double> Row::number(int column) const {
  if (is_null(column)) return std::nullopt;
  return statement_.getColumn(column).getDouble();
}

Connection::Connection(const std::string& path, Access access, int wait_ms) {
  translated([&] {
    database_ =
        std::make_unique<SQLite::Database>(address_of(path, access), flags_of(access), wait_ms);
  });
}
Connection::Connection(Connection&&) noexcept = default;
Connection::~Connection() = default;

void Connection::run(const std::string& script) {
  translated([&] { database_->exec(script); });
}

SQLite::Statement& Connection::prepared(const std::string& sql, const std::vector<Value>& values) {
  auto& statement = statements_[sql];
  if (!statement) statement = std::make_unique<SQLite::Statement>(*database_, sql);
  statement->reset();
  for (std::size_t i = 0; i < values.size(); ++i)
    bind(*statement, static_cast<int>(i + 1), values[i]);
  return *statement;
}

int Connection::execute(const std::string& sql, const std::vector<Value>& values) {
  return translated([&] {
    SQLite::Statement& statement = prepared(sql, values);
    try {
      const int changed = statement.exec();
      statement.reset();
      return changed;
    } catch (const SQLite::Exception&) {
      statement.tryReset();  // a statement left open would keep the transaction from ending
      throw;
    }
  });
}

void Connection::each(const std::string& sql, const std::vector<Value>& values,
                      const std::function<void(const Row&)>& take) {
  translated([&] {
    SQLite::Statement& statement = prepared(sql, values);
    try {
      while (statement.executeStep()) take(Row(statement));
    } catch (...) {
      statement.tryReset();
      throw;
    }
    statement.reset();
  });
}

std::optional<std::int64_t> Connection::whole(const std::string& sql,
                                              const std::vector<Value>& values) {
  std::optional<std::int64_t> first;
  each(sql, values, [&](const Row& row) {
    if (!first) first = row.whole(0);
  });
  return first;
}

std::int64_t Connection::last_row() const { return database_->getLastInsertRowid(); }

void Connection::copy_to(const std::string& path) {
  translated([&] {
    SQLite::Database copy(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    SQLite::Backup(copy, *database_).executeStep();
  });
}

Transaction::Transaction(Connection& connection, Sort sort) : connection_(connection) {
  connection_.run(sort == Sort::writing ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
  if (!open_) return;
  try {
    connection_.run("ROLLBACK");
  } catch (const Failure&) {
    // SQLite has already rolled back by itself; there is nothing left to take back.
  }
}

void Transaction::commit() {
  connection_.run("COMMIT");
  open_ = false;
}

}  // namespace benchgraft::store
