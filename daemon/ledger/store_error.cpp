#include "daemon/ledger/store_error.hpp"

#include "sdk/brewing/errors.hpp"

namespace barmkeep::ledger {
namespace {

struct ErrorText {
    const char* reason;
    const char* message;
    const char* hint;
};

ErrorText text_of(StoreErrorCode code) {
    switch (code) {
    case StoreErrorCode::full:
        return {"disk_full", "The disk is full; nothing was recorded.",
                "Make room, then try again."};
    case StoreErrorCode::input_output:
        return {"disk_failed", "The disk failed.",
                "Look for errors of the disk in the system's log."};
    case StoreErrorCode::read_only:
        return {
            "read_only", "The ledger's file or folder may not be written.",
            "Give the daemon's user the right to write both. Check that the disk is not mounted "
            "read-only."};
    case StoreErrorCode::damaged:
        return {"damaged", "The ledger's file is damaged.", "Restore a backup."};
    case StoreErrorCode::not_a_database:
        return {"not_a_database", "The ledger's file is not a database.",
                "Set ledger.file to the file of the cellar, or restore a backup."};
    case StoreErrorCode::cannot_open:
        return {"cannot_open", "The ledger's file cannot be opened.",
                "Check the path and its owner, and that it is not a symbolic link."};
    case StoreErrorCode::busy:
        return {"in_use", "Another program has locked the ledger's file.", "Stop that program."};
    case StoreErrorCode::rule:
    case StoreErrorCode::other:
        break;
    }
    return {"", "", ""};
}

} // namespace

Error error_of(const StoreError& fault) {
    const ErrorText text = text_of(fault.code());
    if (*text.reason == '\0')
        return {ErrorKind::internal, "internal", fault.what(),
                "This is a bug. The daemon's log has this message and the name of the method."};
    return {ErrorKind::unavailable, text.reason, std::string(text.message) + " " + fault.what(),
            text.hint};
}

Error error_of(const std::exception_ptr& exception) {
    try {
        std::rethrow_exception(exception);
    } catch (const Error& error) {
        return error;
    } catch (const StoreError& fault) {
        return error_of(fault);
    } catch (const brewing::OutOfRange& error) {
        return barmkeep::error_of(error);
    } catch (const std::exception& error) {
        return {ErrorKind::internal, "internal", error.what(),
                "This is a bug. The daemon's log has this message and the name of the method."};
    }
}

bool ends_service(const StoreError& fault) noexcept {
    return fault.code() == StoreErrorCode::input_output || fault.code() == StoreErrorCode::damaged;
}

} // namespace barmkeep::ledger
