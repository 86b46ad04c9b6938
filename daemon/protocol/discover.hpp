// The discover document: everything that can be called, in the OpenRPC 1.3.2 format.
#pragma once

#include "daemon/protocol/limits.hpp"
#include "sdk/method/call.hpp"

#include <memory>
#include <mutex>
#include <string>
#include <string_view>

namespace barmkeep::protocol {

/// The version of the protocol, apart from the program's.  The first number changes when a client
/// written for the earlier one would break; the second when something was added.
inline constexpr std::string_view protocol_version = "1.0";

/// The method that answers the document.  It is no row of the table: names that begin with "rpc."
/// belong to the standard.
inline constexpr std::string_view discover_method = "rpc.discover";

/// What the document says of the program.
struct Program {
    std::string version;     ///< of the program
    std::string socket_path; ///< empty: the document names no server
};

/// Builds the document from the table as it is now.
[[nodiscard]] json::object discover_document(const MethodTable& methods, const Program& program,
                                             const Limits& limits);

/// The document of one table, program and limits, built again only when the methods have changed.
/// Thread safety: any thread.
class DiscoverCache {
public:
    [[nodiscard]] std::shared_ptr<const json::object>
    document(const MethodTable& methods, const Program& program, const Limits& limits);

private:
    std::mutex mutex_; ///< guards what follows
    std::uint64_t generation_ = 0;
    std::shared_ptr<const json::object> document_;
};

} // namespace barmkeep::protocol
