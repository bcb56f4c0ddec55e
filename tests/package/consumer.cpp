#include <coldtally/forms.hpp>
#include <coldtally/ledger.hpp>

#include <iostream>

int main(int, char** argv) {
    coldtally::Ledger ledger(argv[1], coldtally::Ledger::Mode::create);
    const coldtally::Instant now = coldtally::parse_instant("2026-03-02T08:00:00Z", coldtally::Zone("UTC"));
    ledger.post(R"({"kind":"site","name":"Demo","zone":"UTC","by":"ab"})", now);
    std::cout << coldtally::to_json(ledger.stock({}, now));
}
