// Chain: SHA-256 (FIPS 180-4), and the links that tie each entry to all before it.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <string_view>

namespace coldtally::ledger {

using Bytes = std::basic_string<unsigned char>;

Bytes sha256(std::string_view data);
/// Of what comes in pieces, up to an empty one.
Bytes sha256_of(const std::function<std::string_view()>& next);
std::string hexadecimal(const Bytes& bytes);

/// SHA-256 of the link before (none: 32 zero bytes), the body, and the digests of the entry's blocks, in their order.
Bytes next_link(const Bytes& before, std::string_view body, std::span<const Bytes> block_digests);
Bytes first_link();

}  // namespace coldtally::ledger
