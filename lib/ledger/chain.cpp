#include "ledger/chain.hpp"

#include <nettle/sha2.h>

namespace coldtally::ledger {

namespace {

class Hash {
public:
    Hash() { sha256_init(&state_); }
    Hash& add(const void* data, std::size_t size) {
        sha256_update(&state_, size, static_cast<const std::uint8_t*>(data));
        return *this;
    }
    Bytes digest() {
        Bytes out(SHA256_DIGEST_SIZE, 0);
        sha256_digest(&state_, out.size(), out.data());
        return out;
    }

private:
    sha256_ctx state_;
};

}  // namespace

Bytes sha256(std::string_view data) { return Hash().add(data.data(), data.size()).digest(); }

Bytes sha256_of(const std::function<std::string_view()>& next) {
    Hash hash;
    for (auto piece = next(); !piece.empty(); piece = next()) hash.add(piece.data(), piece.size());
    return hash.digest();
}

std::string hexadecimal(const Bytes& bytes) {
    static constexpr char digits[] = "0123456789abcdef";
    std::string out;
    for (const unsigned char b : bytes) {
        out += digits[b >> 4];
        out += digits[b & 15];
    }
    return out;
}

Bytes first_link() { return Bytes(32, 0); }

Bytes next_link(const Bytes& before, std::string_view body, std::span<const Bytes> block_digests) {
    Hash hash;
    hash.add(before.data(), before.size()).add(body.data(), body.size());
    for (const Bytes& d : block_digests) hash.add(d.data(), d.size());
    return hash.digest();
}

}  // namespace coldtally::ledger
