// Shows how many shelves of the cellar hold something, or why it cannot.
#include "sdk/client/client.hpp"
#include "sdk/client/paths.hpp"
#include "sdk/contract/cellar.hpp"

#include <iostream>

int main() {
    using namespace barmkeep;
    const auto environment = client::process_environment();
    const std::string socket = client::non_empty(environment, client::socket_variable)
                                   .value_or(client::usual_socket_path(environment));
    client::ClientOptions options;
    options.socket = socket;
    options.attempts_max = 1;
    client::Client daemon{options};
    try {
        std::cout << daemon.call<contract::CellarGlance>().shelves.size() << " on the shelves\n";
        return 0;
    } catch (const Error& error) {
        std::cout << error.reason() << " at " << socket << ": " << error.what() << '\n';
        return 1;
    }
}
