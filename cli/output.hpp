// Output: standard output whose every byte is known to have been written, or the command says that it was not.
#pragma once

#include <string>
#include <string_view>

namespace coldtally::cli {

/// Buffers; not for several threads.
class Output {
public:
    explicit Output(int descriptor) : descriptor_(descriptor) {}
    /// Code::machine where earlier bytes could not be written.
    void write(std::string_view bytes);
    /// Writes what is buffered; Code::machine where that cannot be done. To be called last.
    void flush();

private:
    int descriptor_;
    std::string buffer_;
};

/// One line on standard error, whatever the message holds: a terminal is not to obey what stands in somebody's file.
void say_on_standard_error(const std::string& message, std::string begin = "coldtally: ");

}  // namespace coldtally::cli
