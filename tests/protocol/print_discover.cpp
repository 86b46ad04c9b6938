// Prints the discover document of all methods that the contract describes.
#include "daemon/protocol/discover.hpp"
#include "tests/protocol/contract_methods.hpp"

#include <cstdio>

int main() {
    barmkeep::MethodTable methods;
    barmkeep::tests::add_contract_methods(methods);
    const auto text = barmkeep::write_json(
        barmkeep::protocol::discover_document(methods, {"0.1.0", "/run/barmkeep/socket"}, {}));
    std::puts(text.c_str());
}
