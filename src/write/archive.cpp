// SPDX-License-Identifier: MIT
#include "write/archive.hpp"

#include <cstdint>

namespace quartercut::write {
namespace {

/// Follows how deep lists and objects lie in each other, and stops the reader before it goes deeper than it can.
class Depth final : public nlohmann::json_sax<Tree> {
public:
    [[nodiscard]] bool exceeded() const { return exceeded_; }
    bool null() override { return true; }
    bool boolean(bool) override { return true; }
    bool number_integer(std::int64_t) override { return true; }
    bool number_unsigned(std::uint64_t) override { return true; }
    bool number_float(double, const std::string&) override { return true; }
    bool string(std::string&) override { return true; }
    bool binary(Tree::binary_t&) override { return true; }
    bool key(std::string&) override { return true; }
    bool start_object(std::size_t) override { return deeper(); }
    bool end_object() override { return --depth_ >= 0; }
    bool start_array(std::size_t) override { return deeper(); }
    bool end_array() override { return --depth_ >= 0; }
    bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception&) override { return false; }

private:
    static constexpr int deepest = 100; // ours are less than 20 deep
    bool deeper() {
        exceeded_ = ++depth_ > deepest;
        return !exceeded_;
    }
    int depth_ = 0;
    bool exceeded_ = false;
};

} // namespace

void require_shallow(const std::string& cbor) {
    Depth depth;
    (void)Tree::sax_parse(cbor, &depth, Tree::input_format_t::cbor);
    if (depth.exceeded()) throw InputError("it is damaged or of another version.");
}

} // namespace quartercut::write
