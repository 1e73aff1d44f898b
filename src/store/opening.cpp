#include "store/opening.hpp"

#include <filesystem>

#include <fmt/format.h>

#include "store/schema.hpp"

namespace benchgraft::store {

namespace {

namespace fs = std::filesystem;

Access access_of(Mode mode) {
  switch (mode) {
    case Mode::create:
      return Access::create;
    case Mode::write:
      return Access::write;
    case Mode::read:
      return Access::read;
  }
  return Access::read;
}

// What can be told about a path before the database looks at it.
Result<void> check_path(const std::string& path, Mode mode) {
  std::error_code failed;
  if (path.empty()) return Error{ErrorKind::bad_input, "no shop file is named; give its path."};
  if (fs::is_directory(path, failed))
    return Error{ErrorKind::bad_input,
                 fmt::format("{}: this is a folder; give a file in it.", path)};
  if (fs::exists(path, failed)) return {};
  if (failed) return error_of({Fault::cannot_open, failed.message()}, path);
  if (mode != Mode::create)
    return Error{
        ErrorKind::not_found,
        fmt::format("{}: there is no such file; make a new shop, or correct the path.", path)};
  const fs::path folder = fs::path(path).parent_path();
  if (folder.empty() || fs::is_directory(folder, failed)) return {};
  if (fs::exists(folder, failed))
    return Error{ErrorKind::storage,
                 fmt::format("{}: {} is a file and no folder; choose another place.", path,
                             folder.string())};
  return Error{ErrorKind::storage, fmt::format("{}: the folder {} is not there; make it first.",
                                               path, folder.string())};
}

void set_up(Connection& connection, Access access) {
  connection.run("PRAGMA foreign_keys = ON");
  if (access == Access::create || access == Access::write) {
    connection.run("PRAGMA synchronous = FULL");
  } else {
    connection.run("PRAGMA query_only = ON");
  }
}

// The first look at the file: here a file that is no database, or not readable, shows.
void look_at(Connection& connection) {
  (void)connection.whole("SELECT count(*) FROM sqlite_schema");
}

Connection connect(const std::string& path, Mode mode, int wait_ms) {
  const Access access = access_of(mode);
  try {
    Connection connection(path, access, wait_ms);
    set_up(connection, access);
    look_at(connection);
    return connection;
  } catch (const Failure& failure) {
    // Reading needs a small file beside the shop. Where none can be made and no change is waiting,
    // the shop can be read as it stands.
    const bool no_room = failure.fault == Fault::cannot_open || failure.fault == Fault::read_only;
    std::error_code failed;
    if (mode != Mode::read || !no_room || fs::exists(path + "-wal", failed)) throw;
  }
  Connection connection(path, Access::read_unchanging, wait_ms);
  set_up(connection, Access::read_unchanging);
  look_at(connection);
  return connection;
}

}  // namespace

Result<Connection> open_shop(const std::string& path, Mode mode, int wait_ms) {
  if (auto sound = check_path(path, mode); !sound) return sound.error();
  try {
    Connection connection = connect(path, mode, wait_ms);
    const Access access = access_of(mode);
    if (auto current = bring_up_to_date(connection, path, access, steps()); !current)
      return current.error();
    if (mode != Mode::read) connection.run("PRAGMA journal_mode = WAL");
    return connection;
  } catch (const Failure& failure) {
    return error_of(failure, path);
  }
}

}  // namespace benchgraft::store
