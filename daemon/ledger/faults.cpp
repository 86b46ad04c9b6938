#include "daemon/ledger/faults.hpp"

#include "sdk/brewing/errors.hpp"

namespace barmkeep::ledger {
namespace {

struct Told {
    const char* reason;
    const char* message;
    const char* hint;
};

Told told_of(Trouble trouble) {
    switch (trouble) {
    case Trouble::full:
        return {"disk_full", "The disk has no room: nothing was recorded.",
                "Make room, then ask again."};
    case Trouble::input_output:
        return {"disk_failed", "The disk failed.", "Look at the system's log for the disk."};
    case Trouble::read_only:
        return {
            "read_only", "The ledger's file or folder may not be written.",
            "Give the daemon's user the right to write both, and see whether the disk is mounted "
            "for reading only."};
    case Trouble::damaged:
        return {"damaged", "The ledger's file is damaged.", "Restore a backup."};
    case Trouble::not_a_database:
        return {"not_a_database", "The ledger's file is no database.",
                "Name the cellar's own file in the settings, or restore a backup."};
    case Trouble::cannot_open:
        return {"cannot_open", "The ledger's file cannot be opened.",
                "Check the path, who owns it, and that it is no symbolic link."};
    case Trouble::busy:
        return {"in_use", "Another program holds the ledger's file.", "Stop that program."};
    case Trouble::rule:
    case Trouble::other:
        break;
    }
    return {"", "", ""};
}

} // namespace

Error error_of(const StoreFault& fault) {
    const Told told = told_of(fault.trouble());
    if (*told.reason == '\0')
        return {ErrorKind::internal, "internal", fault.what(),
                "This is a fault of the program; its log has the method's name and this sentence."};
    return {ErrorKind::unavailable, told.reason, std::string(told.message) + " " + fault.what(),
            told.hint};
}

Error error_of(const std::exception_ptr& exception) {
    try {
        std::rethrow_exception(exception);
    } catch (const Error& error) {
        return error;
    } catch (const StoreFault& fault) {
        return error_of(fault);
    } catch (const brewing::OutOfRange& error) {
        return barmkeep::error_of(error);
    } catch (const std::exception& error) {
        return {ErrorKind::internal, "internal", error.what(),
                "This is a fault of the program; its log has the method's name and this sentence."};
    }
}

bool ends_service(const StoreFault& fault) noexcept {
    return fault.trouble() == Trouble::input_output || fault.trouble() == Trouble::damaged;
}

} // namespace barmkeep::ledger
