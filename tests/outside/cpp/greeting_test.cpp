#include "greeting.hpp"

#include "sdk/plugin/fake_host.hpp"

#include <iostream>

int main() {
    barmkeep::plugin::FakeHost host;
    host.start<Greeting>({{"word", "Prost"}});
    host.deliver("lot.changed");
    const auto said = host.call<GreetingSay>({.to = "Anna"});
    std::cout << said.text << ' ' << said.changes << '\n';
    return said.text == "Prost, Anna!" && said.changes == 1 ? 0 : 1;
}
