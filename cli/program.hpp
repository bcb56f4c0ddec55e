// Program: the command line as a whole. It chooses a command, runs it, and turns what went wrong into one line and an
// exit status.
#pragma once

#include "coldtally/words.hpp"

namespace coldtally::cli {

/// The arguments are those of main; the exit status is one of ExitStatus. Answers are said by the book.
int run_program(int count, char** given, const Phrasebook& book);

}  // namespace coldtally::cli
