// The library under this room, and the names we use of it.  Not for other rooms.
#pragma once

#include <boost/asio.hpp>

namespace barmkeep::socket {

namespace asio = boost::asio;
using error_code = boost::system::error_code;
using Stream = asio::local::stream_protocol::socket;
using Strand = asio::strand<asio::io_context::executor_type>;

} // namespace barmkeep::socket
