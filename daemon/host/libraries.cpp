#include "daemon/host/libraries.hpp"

#include "sdk/method/error.hpp"

#include <boost/dll/shared_library.hpp>
#include <dlfcn.h>
#include <fmt/format.h>

namespace barmkeep::host {
namespace {

namespace fs = std::filesystem;
using boost::dll::load_mode::type;

/// All symbols bound at once, none lent to others, and never unmapped.  The last is a flag of the
/// system's that Boost.DLL has no name for but hands on.
constexpr auto mode = static_cast<type>(static_cast<unsigned>(boost::dll::load_mode::rtld_now) |
                                        static_cast<unsigned>(boost::dll::load_mode::rtld_local) |
                                        static_cast<unsigned>(RTLD_NODELETE));

/// The linker's own words, with the file's name in the place of the descriptor's.
std::string linker_words(const std::string& what, const CheckedFile& opened, const fs::path& file) {
    const std::string before = "dlerror system message: ";
    const auto begin = what.find(before);
    const auto end = what.rfind("): ");
    std::string words = begin == std::string::npos || end == std::string::npos
                            ? what
                            : what.substr(begin + before.size(), end - begin - before.size());
    const std::string name = opened.loadable_path().string();
    if (const auto at = words.find(name); at != std::string::npos)
        words.replace(at, name.size(), file.string());
    return words;
}

boost::dll::shared_library map(const CheckedFile& opened, const fs::path& file) {
    try {
        return boost::dll::shared_library(opened.loadable_path(), mode);
    } catch (const std::exception& failure) {
        throw Error(
            ErrorKind::unavailable, "cannot_load",
            fmt::format("{} cannot be loaded: {}.", file.string(),
                        linker_words(failure.what(), opened, file)),
            "Check that it was built for this machine and that its libraries are installed.");
    }
}

const barmkeep_plugin* ask(const barmkeep_plugin* (*entry)(), const fs::path& file) {
    try {
        return entry();
    } catch (...) {
        throw Error(ErrorKind::unavailable, "plugin_threw",
                    fmt::format("{} threw an exception at its entry.", file.string()),
                    "Its author must fix it.");
    }
}

} // namespace

/// The linker holds a lock of its own while it runs a file's initialisers.  A thread that
/// asks it for another file at that time is stuck with them, so it is refused first.
class Libraries::Turn {
public:
    Turn(Libraries& libraries, const fs::path& file) : libraries_{libraries} {
        const std::scoped_lock lock{libraries_.mutex_};
        if (libraries_.loading_)
            throw Error(
                ErrorKind::unavailable, "load_stuck",
                fmt::format("{} is still being loaded. Until it is, no other file can be loaded.",
                            libraries_.loading_->string()),
                "Remove it from the plugin folder and restart the daemon.");
        libraries_.loading_ = file;
    }
    ~Turn() {
        const std::scoped_lock lock{libraries_.mutex_};
        libraries_.loading_.reset();
    }
    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;

private:
    Libraries& libraries_;
};

const barmkeep_plugin* Libraries::load(const fs::path& file) {
    Entry* entry = nullptr;
    {
        const Turn turn{*this, file};
        entry = entry_of(file);
    }
    return ask(entry, file);
}

Libraries::Entry* Libraries::entry_of(const fs::path& file) {
    CheckedFile opened{file, trust_};
    if (const auto known = mapped_.find(file); known != mapped_.end()) {
        if (known->second.identity != opened.identity())
            throw Error(ErrorKind::conflict, "needs_restart",
                        file.string() + " has changed since it was loaded.",
                        "Restart the daemon to load the new code.");
        return known->second.entry;
    }
    const auto library = map(opened, file);
    // The linker knows the library by the descriptor's path.  Were the number given to another
    // file, loading that one would find this library instead; so it is never given back.
    opened.keep_open();
    if (!library.has(BARMKEEP_PLUGIN_ENTRY_NAME))
        throw Error(
            ErrorKind::unavailable, "not_a_plugin",
            fmt::format("{} exports no function {}.", file.string(), BARMKEEP_PLUGIN_ENTRY_NAME),
            "It is a shared object, but not a plugin of Barmkeep.");
    Entry* entry = &library.get<Entry>(BARMKEEP_PLUGIN_ENTRY_NAME);
    mapped_[file] = {opened.identity(), entry};
    return entry;
}

} // namespace barmkeep::host
