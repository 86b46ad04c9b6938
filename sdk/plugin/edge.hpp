// The C functions of a plugin written in C++.  Nothing that is thrown passes this edge.
#pragma once

#include "sdk/plugin/declaration.hpp"

namespace barmkeep::plugin::edge {

using DeclaredBy = const Declared& (*)();

void describe(DeclaredBy declared, barmkeep_sink sink, void* context) noexcept;
[[nodiscard]] void* start(DeclaredBy declared, const barmkeep_host* host, const char* settings,
                          std::size_t length, barmkeep_sink failure, void* context) noexcept;
void call(void* state, barmkeep_call_number number, const barmkeep_request* request) noexcept;
void event(void* state, const char* event, std::size_t length) noexcept;
void stop(void* state) noexcept;
void sheet(DeclaredBy declared, std::string_view method, std::string_view params,
           std::string_view result, barmkeep_sink sink, void* context) noexcept;

} // namespace barmkeep::plugin::edge
