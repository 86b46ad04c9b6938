#include "daemon/protocol/access.hpp"
#include "daemon/protocol/people.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

namespace barmkeep::protocol {
namespace {

AccessRules rules() {
    AccessRules made;
    made.owner = 900;
    made.look.users = {1001};
    made.keep.groups = {50};
    made.manage.users = {1002};
    return made;
}

std::optional<std::string> anna_is_1001(uid_t uid) {
    return uid == 1001 ? std::optional<std::string>{"anna"} : std::nullopt;
}

TEST(Access, OwnerAndRootAlwaysManage) {
    EXPECT_EQ(access_of({900, 900, {}, 1}, rules()), Access::manage);
    EXPECT_EQ(access_of({0, 0, {}, 1}, rules()), Access::manage);
}

TEST(Access, TheWidestGrantCounts) {
    EXPECT_EQ(access_of({1001, 100, {}, 1}, rules()), Access::look);
    EXPECT_EQ(access_of({1001, 50, {}, 1}, rules()), Access::keep);
    EXPECT_EQ(access_of({1003, 100, {7, 50}, 1}, rules()), Access::keep);
    EXPECT_EQ(access_of({1002, 50, {}, 1}, rules()), Access::manage);
}

TEST(Access, EverybodyElseHasWhatTheRulesGiveThemOrNothing) {
    auto open = rules();
    EXPECT_EQ(access_of({1500, 100, {}, 1}, open), std::nullopt);
    open.everybody = Access::keep;
    EXPECT_EQ(access_of({1500, 100, {}, 1}, open), Access::keep);
    // A narrower grant takes nothing away.
    EXPECT_EQ(access_of({1001, 100, {}, 1}, open), Access::keep);
}

TEST(Access, AnUnknownUserIsNobodyWhateverTheListsSay) {
    auto listed = rules();
    listed.manage.users = {uid_unknown};
    listed.keep.groups = {uid_unknown};
    EXPECT_EQ(access_of({uid_unknown, uid_unknown, {}, 1}, listed), std::nullopt);
    try {
        (void)caller_of({uid_unknown, uid_unknown, {}, 1}, listed, {});
        FAIL();
    } catch (const Error& error) {
        EXPECT_EQ(error.reason(), "user_unknown");
    }
}

TEST(Access, TheCallerIsNamed) {
    EXPECT_EQ(caller_of({1001, 1, {}, 1}, rules(), anna_is_1001).name, "anna");
    EXPECT_EQ(caller_of({1002, 1, {}, 1}, rules(), anna_is_1001).name, "uid 1002");
    EXPECT_EQ(caller_of({1002, 1, {}, 1}, rules(), {}).name, "uid 1002");
}

TEST(Access, WhoIsNotAdmittedIsToldWhy) {
    try {
        (void)caller_of({1500, 100, {}, 1}, rules(), anna_is_1001);
        FAIL();
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::refused);
        EXPECT_EQ(error.reason(), "not_admitted");
        EXPECT_NE(std::string(error.what()).find("1500"), std::string::npos);
        EXPECT_FALSE(error.hint().empty());
    }
}

TEST(People, FindsUsersAndGroupsByNameAndNumber) {
    EXPECT_EQ(user_name(0), "root");
    EXPECT_EQ(user_number("root"), 0U);
    EXPECT_EQ(group_number("root"), 0U);
    EXPECT_EQ(user_number("4000000000"), 4000000000U);
    EXPECT_EQ(user_number("no such user here"), std::nullopt);
    EXPECT_EQ(group_number("no such group here"), std::nullopt);
    EXPECT_EQ(user_name(3999999999U), std::nullopt);
}

} // namespace
} // namespace barmkeep::protocol
