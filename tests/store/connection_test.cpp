#include "store/connection.hpp"

#include <gtest/gtest.h>

#include "store/folder.hpp"

namespace benchgraft::store {
namespace {

TEST(Connection, binds_places_by_name_in_any_order_and_gives_every_value_back) {
  const Folder folder;
  Connection connection(folder.file(), Access::create, 100);
  connection.run("CREATE TABLE t (a INTEGER, b REAL, c TEXT, d TEXT) STRICT");
  const std::int64_t large = 9007199254740993;
  connection.execute("INSERT INTO t (c, a, d, b) VALUES ($3, $1, $4, $2)",
                     {large, 1.0 / 3.0, std::string("a\0b", 3), nullptr});
  int rows = 0;
  connection.each("SELECT a, b, c, d FROM t WHERE a = $1", {large}, [&](const Row& row) {
    ++rows;
    EXPECT_EQ(row.whole(0), large);
    EXPECT_EQ(row.number(1), 1.0 / 3.0);
    EXPECT_EQ(row.text(2), std::string("a\0b", 3));
    EXPECT_TRUE(row.is_null(3));
    EXPECT_FALSE(row.number(3).has_value());
    EXPECT_EQ(row.text(3), "");
  });
  EXPECT_EQ(rows, 1);
}

TEST(Connection, can_be_used_on_after_a_refused_statement) {
  const Folder folder;
  Connection connection(folder.file(), Access::create, 100);
  connection.run("CREATE TABLE t (a INTEGER PRIMARY KEY) STRICT");
  connection.execute("INSERT INTO t VALUES ($1)", {std::int64_t{1}});
  EXPECT_THROW(connection.execute("INSERT INTO t VALUES ($1)", {std::int64_t{1}}), Failure);
  EXPECT_EQ(connection.execute("INSERT INTO t VALUES ($1)", {std::int64_t{2}}), 1);
  EXPECT_EQ(connection.whole("SELECT count(*) FROM t"), 2);
}

TEST(Connection, takes_everything_back_when_a_transaction_is_left) {
  const Folder folder;
  Connection connection(folder.file(), Access::create, 100);
  connection.run("CREATE TABLE t (a INTEGER PRIMARY KEY) STRICT");
  {
    Transaction transaction(connection, Transaction::Sort::writing);
    connection.run("INSERT INTO t VALUES (1)");
  }
  EXPECT_EQ(connection.whole("SELECT count(*) FROM t"), 0);
}

}  // namespace
}  // namespace benchgraft::store
