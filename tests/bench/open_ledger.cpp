// bench_open LEDGER: a process that opens the ledger and ends.
#include <coldtally/ledger.hpp>

int main(int argc, char** argv) {
    if (argc != 2) return 2;
    const coldtally::Ledger ledger(argv[1]);
}
