// Keys that make a repeated request the same request.
#pragma once

#include <string>

namespace barmkeep::client {

/// 128 random bits of the system's own source, in base32 (RFC 4648, small letters, no padding):
/// 26 characters that no two requests share.  Throws std::exception's kin if the system has no
/// random source.  Thread safety: any thread.
[[nodiscard]] std::string new_request_key();

} // namespace barmkeep::client
