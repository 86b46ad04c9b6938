#include "daemon/client/exit_code.hpp"

namespace barmkeep::barm {

ExitCode exit_code_of(const Error& error) noexcept {
    switch (error.kind()) {
    case ErrorKind::params:
        return ExitCode::bad_data;
    case ErrorKind::not_found:
    case ErrorKind::not_enough:
    case ErrorKind::conflict:
        return ExitCode::not_done;
    case ErrorKind::refused:
        return ExitCode::refused;
    case ErrorKind::busy:
    case ErrorKind::unknown_outcome:
        return ExitCode::try_again;
    case ErrorKind::cancelled:
        return ExitCode::interrupted;
    case ErrorKind::unavailable:
        return error.reason() == "no_permission" ? ExitCode::refused : ExitCode::unreachable;
    case ErrorKind::method_unknown:
        return ExitCode::usage;
    case ErrorKind::request:
    case ErrorKind::text:
        return ExitCode::protocol;
    case ErrorKind::internal:
        break;
    }
    return ExitCode::internal;
}

} // namespace barmkeep::barm
