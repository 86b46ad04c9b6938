#include "daemon/socket/place.hpp"
#include "sdk/method/error.hpp"
#include "tests/socket/cellar_socket.hpp"

#include <fstream>
#include <gtest/gtest.h>

namespace barmkeep::tests {
namespace {

using socket::Bound;

std::string reason_of_failure(const std::function<void()>& work) {
    try {
        work();
    } catch (const Error& error) {
        EXPECT_FALSE(std::string(error.what()).empty());
        return error.reason();
    }
    return "";
}

std::string bind_failure(const std::filesystem::path& path) {
    return reason_of_failure([&] { (void)Bound::at({path, 0600, std::nullopt}); });
}

TEST(Place, TakesTheNameWithTheModeAskedFor) {
    const Folder folder;
    const auto path = folder.path / "socket";
    const Bound bound = Bound::at({path, 0660, ::getegid()});
    struct stat found {};
    ASSERT_EQ(::stat(path.c_str(), &found), 0);
    EXPECT_TRUE(S_ISSOCK(found.st_mode));
    EXPECT_EQ(found.st_mode & 07777, 0660U);
    EXPECT_EQ(found.st_gid, ::getegid());
    PlainClient client{path}; // it listens
    // Nothing temporary is left beside it.
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path), {}), 2);
}

TEST(Place, RemovesItsNameAtTheEndButNotAnothersName) {
    const Folder folder;
    const auto path = folder.path / "socket";
    { const Bound bound = Bound::at({path, 0600, std::nullopt}); }
    EXPECT_FALSE(std::filesystem::exists(path));
    {
        const Bound bound = Bound::at({path, 0600, std::nullopt});
        std::filesystem::remove(path);
        std::ofstream{path} << "another's";
    }
    EXPECT_TRUE(std::filesystem::exists(path));
}

TEST(Place, NeverStealsALiveSocketAndReplacesADeadOne) {
    const Folder folder;
    const auto path = folder.path / "socket";
    {
        const Bound first = Bound::at({path, 0600, std::nullopt});
        EXPECT_EQ(bind_failure(path), "already_running");
        PlainClient still_there{path};
        // As a crash leaves it: the name stays, the lock is gone with its holder.
        std::filesystem::rename(path, folder.path / "kept");
    }
    std::filesystem::rename(folder.path / "kept", path);
    EXPECT_THROW(PlainClient{path}, std::runtime_error);
    const Bound second = Bound::at({path, 0600, std::nullopt});
    PlainClient client{path};
}

TEST(Place, TellsThatAPathIsTooLongAndHowLongItMayBe) {
    const Folder folder;
    const std::string base = folder.path.string() + "/";
    const std::string longest = base + std::string(socket::path_bytes_max - base.size(), 's');
    EXPECT_EQ(bind_failure(longest), "");
    try {
        (void)Bound::at({longest + "s", 0600, std::nullopt});
        FAIL();
    } catch (const Error& error) {
        EXPECT_EQ(error.reason(), "bad_socket_path");
        EXPECT_NE(std::string(error.what()).find("107"), std::string::npos);
    }
}

TEST(Place, WantsAnAbsolutePathInAFolderThatIsThere) {
    const Folder folder;
    EXPECT_EQ(bind_failure("socket"), "bad_socket_path");
    EXPECT_EQ(bind_failure(folder.path / "not there" / "socket"), "socket_failed");
}

TEST(Place, RefusesAFolderThatOthersCanWrite) {
    const Folder folder;
    for (const mode_t mode : {0770U, 0702U, 01777U}) {
        ASSERT_EQ(::chmod(folder.path.c_str(), mode), 0);
        EXPECT_EQ(bind_failure(folder.path / "socket"), "unsafe_folder") << std::oct << mode;
    }
    ASSERT_EQ(::chmod(folder.path.c_str(), 0755), 0);
    EXPECT_EQ(bind_failure(folder.path / "socket"), "");
}

TEST(Place, DoesNotFollowASymbolicLinkInPlaceOfTheLock) {
    const Folder folder;
    std::filesystem::create_symlink(folder.path / "target", folder.path / "socket.lock");
    EXPECT_EQ(bind_failure(folder.path / "socket"), "socket_failed");
    EXPECT_FALSE(std::filesystem::exists(folder.path / "target"));
}

TEST(Place, AnInheritedDescriptorMustListen) {
    EXPECT_EQ(reason_of_failure([] { (void)Bound::inherited(9999); }), "bad_inherited_socket");
    const Descriptor deaf{::socket(AF_UNIX, SOCK_STREAM, 0)};
    EXPECT_EQ(reason_of_failure([&] { (void)Bound::inherited(deaf.get()); }),
              "bad_inherited_socket");
    const Descriptor other{::socket(AF_UNIX, SOCK_DGRAM, 0)};
    EXPECT_EQ(reason_of_failure([&] { (void)Bound::inherited(other.get()); }),
              "bad_inherited_socket");
}

TEST(Place, AnInheritedSocketIsServedAndKeepsItsName) {
    const Folder folder;
    const auto path = folder.path / "made-by-another";
    Bound made = Bound::at({path, 0600, std::nullopt});
    {
        CellarSocket cellar{{}, CellarSocket::own(), [&] {
                                return Bound::inherited(made.release());
                            }};
        PlainClient client{path};
        EXPECT_EQ(client.ask(request(1, "example.subtract", "[3,1]")).at("result"), 2);
    }
    EXPECT_TRUE(std::filesystem::exists(path));
}

} // namespace
} // namespace barmkeep::tests
