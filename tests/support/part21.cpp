#include "support/part21.h"

#include <cctype>
#include <cstdint>
#include <stdexcept>

namespace dryfit::tests::part21 {

namespace {

void addUtf8(std::string& out, std::uint32_t c) {
  auto put = [&](std::uint32_t byte) { out += static_cast<char>(byte); };
  if (c < 0x80) return put(c);
  if (c < 0x800) return put(0xC0 | (c >> 6)), put(0x80 | (c & 63));
  if (c < 0x10000) return put(0xE0 | (c >> 12)), put(0x80 | ((c >> 6) & 63)), put(0x80 | (c & 63));
  put(0xF0 | (c >> 18)), put(0x80 | ((c >> 12) & 63)), put(0x80 | ((c >> 6) & 63)), put(0x80 | (c & 63));
}

class Parser {
 public:
  explicit Parser(const std::string& text) : text_(text) {
    for (; at_ < text.size(); ++at_) {
      const auto c = static_cast<unsigned char>(text[at_]);
      if (c > 126 || (c < 32 && c != '\n' && c != '\r')) fail("a byte that is not printable 7-bit text");
    }
    at_ = 0;
  }

  File file() {
    expect("ISO-10303-21;");
    expect("HEADER;");
    while (!starts("ENDSEC;")) file_.header.push_back(record()), expect(";");
    expect("ENDSEC;");
    expect("DATA;");
    while (!starts("ENDSEC;")) addInstance();
    expect("ENDSEC;");
    expect("END-ISO-10303-21;");
    space();
    if (at_ != text_.size()) fail("text after the end");
    return file_;
  }

 private:
  [[noreturn]] void fail(const std::string& what) const {
    throw std::runtime_error("Part 21, byte " + std::to_string(at_) + ": " + what);
  }

  char peek() const { return at_ < text_.size() ? text_[at_] : '\0'; }
  bool digit() const { return std::isdigit(static_cast<unsigned char>(peek())) != 0; }

  void space() {
    for (;;) {
      while (peek() == ' ' || peek() == '\n' || peek() == '\r') ++at_;
      if (text_.compare(at_, 2, "/*") != 0) return;
      at_ = text_.find("*/", at_);
      if (at_ == std::string::npos) fail("a comment without an end");
      at_ += 2;
    }
  }

  bool starts(const std::string& word) {
    space();
    return text_.compare(at_, word.size(), word) == 0;
  }

  void expect(const std::string& word) {
    if (!starts(word)) fail("expected " + word);
    at_ += word.size();
  }

  std::string keyword() {
    space();
    std::string word;
    while (std::isupper(static_cast<unsigned char>(peek())) || digit() || peek() == '_') word += text_[at_++];
    if (word.empty() || std::isdigit(static_cast<unsigned char>(word[0])))
      fail("expected a keyword in capitals");
    return word;
  }

  int name() {
    expect("#");
    int id = 0;
    if (!digit()) fail("a # without a number");
    while (digit()) id = id * 10 + (text_[at_++] - '0');
    if (id < 1) fail("instance numbers begin at 1");
    return id;
  }

  Record record() {
    Record r;
    r.type = keyword();
    r.arguments = list();
    return r;
  }

  void addInstance() {
    const int id = name();
    expect("=");
    Instance instance;
    if (starts("(")) {
      expect("(");
      while (!starts(")")) instance.push_back(record());
      expect(")");
      for (size_t i = 1; i < instance.size(); ++i)
        if (instance[i - 1].type >= instance[i].type) fail("parts of a complex instance out of order");
    } else {
      instance.push_back(record());
    }
    expect(";");
    if (!file_.data.emplace(id, std::move(instance)).second)
      fail("instance #" + std::to_string(id) + " twice");
  }

  std::vector<Value> list() {
    std::vector<Value> items;
    expect("(");
    if (starts(")")) return ++at_, items;
    for (;;) {
      items.push_back(value());
      if (starts(")")) return ++at_, items;
      expect(",");
    }
  }

  Value value() {
    space();
    Value v;
    const char c = peek();
    if (c == '$' || c == '*') {
      v.kind = c == '$' ? Value::Kind::Unset : Value::Kind::Derived;
      ++at_;
    } else if (c == '\'') {
      v.kind = Value::Kind::Text;
      v.text = text();
    } else if (c == '.' || c == '"') {
      v.kind = c == '.' ? Value::Kind::Enumeration : Value::Kind::Binary;
      for (++at_; peek() != c; ++at_)
        if (peek() == '\0')
          fail("a value without an end");
        else
          v.text += peek();
      ++at_;
    } else if (c == '#') {
      v.kind = Value::Kind::Reference;
      v.reference = name();
    } else if (c == '(') {
      v.kind = Value::Kind::List;
      v.items = list();
    } else if (digit() || c == '-' || c == '+') {
      number(v);
    } else {
      v.kind = Value::Kind::Typed;
      v.text = keyword();
      v.items = list();
    }
    return v;
  }

  /// Reals have a point, and an exponent only after one.
  void number(Value& v) {
    const size_t start = at_;
    v.kind = Value::Kind::Integer;
    if (!digit()) ++at_;
    if (!digit()) fail("a number without digits");
    while (digit()) ++at_;
    if (peek() == '.') {
      v.kind = Value::Kind::Real;
      for (++at_; digit();) ++at_;
      if (peek() == 'E') {
        ++at_;
        if (peek() == '-' || peek() == '+') ++at_;
        if (!digit()) fail("an exponent without digits");
        while (digit()) ++at_;
      }
    }
    v.number = std::stod(text_.substr(start, at_ - start));
  }

  std::string text() {
    std::string out;
    for (++at_;;) {
      const char c = peek();
      if (c == '\0') fail("a string without an end");
      if (c == '\\')
        directive(out);
      else if (c == '\'' && text_.compare(at_, 2, "''") == 0)
        out += '\'', at_ += 2;
      else if (c == '\'')
        return ++at_, out;
      else if (c == '\n' || c == '\r')
        ++at_;
      else
        out += c, ++at_;
    }
  }

  std::uint32_t hex(int digits) {
    std::uint32_t code = 0;
    for (int i = 0; i < digits; ++i, ++at_) {
      const char c = peek();
      if (!digit() && !(c >= 'A' && c <= 'F')) fail("a hexadecimal digit expected");
      code = code * 16 + static_cast<std::uint32_t>(digit() ? c - '0' : c - 'A' + 10);
    }
    return code;
  }

  void directive(std::string& out) {
    if (take("\\\\"))
      out += '\\';
    else if (take("\\X2\\"))
      while (!take("\\X0\\")) addUtf8(out, utf16());
    else if (take("\\X4\\"))
      while (!take("\\X0\\")) addUtf8(out, hex(8));
    else if (take("\\X\\"))
      addUtf8(out, hex(2));
    else if (take("\\S\\"))
      addUtf8(out, static_cast<std::uint32_t>(text_[at_++]) + 128);
    else
      fail("an unknown directive in a string");
  }

  bool take(const char* word) {
    const std::string w(word);
    if (text_.compare(at_, w.size(), w) != 0) return false;
    at_ += w.size();
    return true;
  }

  std::uint32_t utf16() {
    const std::uint32_t unit = hex(4);
    if (unit < 0xD800 || unit > 0xDFFF) return unit;
    if (unit > 0xDBFF) fail("half a surrogate pair");
    const std::uint32_t low = hex(4);
    if (low < 0xDC00 || low > 0xDFFF) fail("half a surrogate pair");
    return 0x10000 + ((unit - 0xD800) << 10) + (low - 0xDC00);
  }

  const std::string& text_;
  size_t at_ = 0;
  File file_;
};

}  // namespace

const Record* File::find(int id, const std::string& type) const {
  const auto instance = data.find(id);
  if (instance == data.end()) return nullptr;
  for (const Record& r : instance->second)
    if (r.type == type) return &r;
  return nullptr;
}

std::vector<int> File::all(const std::string& type) const {
  std::vector<int> ids;
  for (const auto& [id, instance] : data)
    if (find(id, type)) ids.push_back(id);
  return ids;
}

File parse(const std::string& text) {
  return Parser(text).file();
}

}  // namespace dryfit::tests::part21
