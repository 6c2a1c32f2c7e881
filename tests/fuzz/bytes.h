// A fuzzer's bytes taken apart into words and numbers.
#pragma once
#include <algorithm>
#include <cstring>
#include <string>
#include <string_view>

namespace fuzz {

class Bytes {
 public:
  Bytes(const unsigned char* data, std::size_t size)
      : rest_(reinterpret_cast<const char*>(data), size) {}

  std::string text() {
    const std::size_t wanted = byte();
    const std::size_t n = std::min(rest_.size(), wanted);
    std::string taken(rest_.substr(0, n));
    rest_.remove_prefix(n);
    return taken;
  }
  double number() {
    double value = 0;
    if (rest_.size() >= sizeof value) {
      std::memcpy(&value, rest_.data(), sizeof value);
      rest_.remove_prefix(sizeof value);
    }
    return value;
  }

 private:
  unsigned char byte() {
    if (rest_.empty()) {
      return 0;
    }
    const auto b = static_cast<unsigned char>(rest_[0]);
    rest_.remove_prefix(1);
    return b;
  }
  std::string_view rest_;
};

}  // namespace fuzz
