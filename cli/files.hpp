// Files: reading a whole file.
#pragma once

#include <string>

namespace coldtally::cli {

/// The bytes of a file, "-": of standard input. Code::machine where it is not there or cannot be read.
std::string read_file(const std::string& path);
/// The name without folders; for standard input "standard input".
std::string file_name(const std::string& path);

/// Writes a new file. Code::ledger_exists where something is there, which stays as it is; Code::machine where it cannot
/// be written.
void write_new_file(const std::string& path, const std::string& content);

}  // namespace coldtally::cli
