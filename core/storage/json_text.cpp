// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/json_text.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr size_t kLineWidth = 100;
constexpr int kMostNested = 64;  // our own forms nest 6 deep; the rest is for unknown keys

// Deep nesting would overrun the stack of whoever walks the document.
bool nestedBeyond(std::string_view text, int most) {
  int depth = 0;
  bool quoted = false;
  for (size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '\\') ++i;
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == '[' || c == '{') ++depth;
    if (c == ']' || c == '}') --depth;
    if (depth > most) return true;
  }
  return false;
}

std::string placeOf(size_t byte, std::string_view text) {
  const std::string_view read = text.substr(0, std::min(byte, text.size()));
  const auto line = 1 + std::count(read.begin(), read.end(), '\n');
  const size_t lastBreak = read.rfind('\n');
  const size_t column =
      lastBreak == std::string_view::npos ? read.size() : read.size() - lastBreak - 1;
  return "line " + std::to_string(line) + ", column " + std::to_string(column);
}

class Writer {
 public:
  std::string text;

  void write(const nlohmann::json& j, size_t indent) {
    if (j.is_object() && !j.empty())
      writeObject(j, indent);
    else if (j.is_array() && !isFlat(j, 2))
      writeList(j, indent);
    else if (j.is_array())
      writeFlat(j, indent);
    else
      writeScalar(j);
  }

 private:
  // Scalars inside at most `depth` lists.
  static bool isFlat(const nlohmann::json& j, int depth) {
    if (j.is_object()) return false;
    if (!j.is_array()) return true;
    return depth > 0 &&
           std::all_of(j.begin(), j.end(), [depth](const auto& e) { return isFlat(e, depth - 1); });
  }

  void writeScalar(const nlohmann::json& j) {
    if (j.is_number_float() && !std::isfinite(j.get<double>()))
      throw std::invalid_argument("a number is not finite");
    text += j.dump();
  }

  void newLine(size_t indent) {
    text += '\n';
    text.append(indent, ' ');
  }

  void writeObject(const nlohmann::json& j, size_t indent) {
    text += '{';
    bool first = true;
    for (const auto& [key, value] : j.items()) {
      if (!first) text += ',';
      first = false;
      newLine(indent + 2);
      text += nlohmann::json(key).dump() + ": ";
      write(value, indent + 2);
    }
    newLine(indent);
    text += '}';
  }

  void writeList(const nlohmann::json& j, size_t indent) {
    text += '[';
    for (size_t i = 0; i < j.size(); ++i) {
      if (i > 0) text += ',';
      newLine(indent + 2);
      write(j[i], indent + 2);
    }
    newLine(indent);
    text += ']';
  }

  void writeFlat(const nlohmann::json& j, size_t indent) {
    text += '[';
    for (size_t i = 0; i < j.size(); ++i) {
      if (i > 0) text += ',';
      const size_t lineStart = text.rfind('\n') + 1;
      if (text.size() - lineStart > kLineWidth)
        newLine(indent + 2);
      else if (i > 0)
        text += ' ';
      if (j[i].is_array())
        writeFlat(j[i], indent + 2);
      else
        writeScalar(j[i]);
    }
    text += ']';
  }
};

}  // namespace

Result<std::string> jsonText(const nlohmann::json& document) {
  try {
    Writer writer;
    writer.write(document, 0);
    return writer.text + '\n';
  } catch (const nlohmann::json::exception&) {
    return Error{"A text is not UTF-8; type it again with plain letters."};
  } catch (const std::invalid_argument&) {
    return Error{"A number is not finite, so it cannot be stored."};
  }
}

Result<nlohmann::json> parseJson(std::string_view text) {
  if (nestedBeyond(text, kMostNested))
    return Error{"It nests brackets more than " + std::to_string(kMostNested) +
                 " deep, which no file of this program does. Put back an older copy of the file."};
  try {
    return nlohmann::json::parse(text);
  } catch (const nlohmann::json::parse_error& e) {
    return Error{"It is not JSON: the fault is at " + placeOf(e.byte, text) +
                 ". Mend it there, or put back an older copy of the file."};
  } catch (const nlohmann::json::out_of_range&) {
    return Error{
        "It holds a number that is too large to be one. Mend it, or put back an older copy of the "
        "file."};
  }
}

}  // namespace rackside
