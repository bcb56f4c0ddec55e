// Which mutant is on, from the environment; and, where asked, which places were run through.
#include "mutation.hpp"

#include <cstdio>
#include <cstdlib>

namespace mutation {

int active = 0;
unsigned char reached[COLDTALLY_MUTANTS + 1];

namespace {

void write_reached() {
    if (std::FILE* file = std::fopen(std::getenv("COLDTALLY_REACHED"), "wb")) {
        std::fwrite(reached, 1, sizeof reached, file);
        std::fclose(file);
    }
}

// before every static of the program, which may run through a place already
__attribute__((constructor(101))) void begin() {
    if (const char* number = std::getenv("COLDTALLY_MUTANT")) active = std::atoi(number);
    if (std::getenv("COLDTALLY_REACHED")) std::atexit(write_reached);
}

}  // namespace

}  // namespace mutation
