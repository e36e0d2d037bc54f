// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/vision/photo/picture_writer.h"

#include <libheif/heif.h>

#include <array>
#include <cstring>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

namespace rackside::test {
namespace {

void put(FileBytes& out, uint32_t value, int bytes) {
  for (int i = bytes - 1; i >= 0; --i) out.push_back(uint8_t(value >> (8 * i)));
}
void putLittle(FileBytes& out, uint32_t value, int bytes) {
  for (int i = 0; i < bytes; ++i) out.push_back(uint8_t(value >> (8 * i)));
}
void put(FileBytes& out, const std::string& text) {
  out.insert(out.end(), text.begin(), text.end());
}
void put(FileBytes& out, const FileBytes& more) {
  out.insert(out.end(), more.begin(), more.end());
}

struct Entry {
  uint32_t tag, type, count;
  FileBytes value;
};

Entry ascii(uint32_t tag, std::string text) {
  text.push_back('\0');
  return {tag, 2, uint32_t(text.size()), FileBytes(text.begin(), text.end())};
}
Entry number(uint32_t tag, uint32_t type, uint32_t value) {
  Entry entry{tag, type, 1, {}};
  put(entry.value, value, type == 3 ? 2 : 4);
  return entry;
}
Entry rational(uint32_t tag, uint32_t above, uint32_t below) {
  Entry entry{tag, 5, 1, {}};
  put(entry.value, above, 4);
  put(entry.value, below, 4);
  return entry;
}

// One directory at `offset` of the TIFF block, its long values behind it.
FileBytes directory(const std::vector<Entry>& entries, size_t offset) {
  FileBytes fixed, data;
  put(fixed, uint32_t(entries.size()), 2);
  const size_t dataAt = offset + 2 + 12 * entries.size() + 4;
  for (const Entry& entry : entries) {
    put(fixed, entry.tag, 2);
    put(fixed, entry.type, 2);
    put(fixed, entry.count, 4);
    FileBytes value = entry.value;
    if (value.size() > 4) {
      put(fixed, uint32_t(dataAt + data.size()), 4);
      put(data, value);
    } else {
      value.resize(4);
      put(fixed, value);
    }
  }
  put(fixed, 0, 4);
  put(fixed, data);
  return fixed;
}

uint32_t crc32(const uint8_t* data, size_t size) {  // PNG, annex D
  uint32_t crc = 0xFFFFFFFF;
  for (size_t i = 0; i < size; ++i) {
    crc ^= data[i];
    for (int bit = 0; bit < 8; ++bit) crc = crc & 1 ? 0xEDB88320 ^ (crc >> 1) : crc >> 1;
  }
  return ~crc;
}

FileBytes jpegWithExif(const FileBytes& plain, const FileBytes& tiff) {
  FileBytes out(plain.begin(), plain.begin() + 2);
  put(out, 0xFFE1, 2);
  put(out, uint32_t(tiff.size() + 8), 2);
  put(out, std::string("Exif\0\0", 6));
  put(out, tiff);
  out.insert(out.end(), plain.begin() + 2, plain.end());
  return out;
}

FileBytes pngWithExif(const FileBytes& plain, const FileBytes& tiff) {
  FileBytes chunk;
  put(chunk, std::string("eXIf"));
  put(chunk, tiff);
  FileBytes out(plain.begin(), plain.begin() + 33);  // signature and header chunk
  put(out, uint32_t(tiff.size()), 4);
  put(out, chunk);
  put(out, crc32(chunk.data(), chunk.size()), 4);
  out.insert(out.end(), plain.begin() + 33, plain.end());
  return out;
}

FileBytes webpWithExif(const FileBytes& plain, const FileBytes& tiff, cv::Size size) {
  FileBytes body;
  put(body, std::string("WEBPVP8X"));
  putLittle(body, 10, 4);
  putLittle(body, 0x08, 4);  // EXIF present
  putLittle(body, uint32_t(size.width - 1), 3);
  putLittle(body, uint32_t(size.height - 1), 3);
  body.insert(body.end(), plain.begin() + 12, plain.end());
  put(body, std::string("EXIF"));
  putLittle(body, uint32_t(tiff.size()), 4);
  put(body, tiff);
  if (tiff.size() % 2) body.push_back(0);
  FileBytes out;
  put(out, std::string("RIFF"));
  putLittle(out, uint32_t(body.size()), 4);
  put(out, body);
  return out;
}

FileBytes box(const std::string& type, const FileBytes& contents) {
  FileBytes out;
  put(out, uint32_t(contents.size() + 8), 4);
  put(out, type);
  put(out, contents);
  return out;
}

}  // namespace

FileBytes exifTiff(int orientation) {
  const std::vector<Entry> camera = {ascii(0x9003, "2026:03:14 09:26:53"), rational(0x920A, 17, 4),
                                     number(0xA405, 3, 26)};
  std::vector<Entry> main = {ascii(0x010F, "Benchtop"), ascii(0x0110, "Model 7"),
                             number(0x0112, 3, uint32_t(orientation)), number(0x8769, 4, 0)};
  const size_t cameraAt = 8 + directory(main, 8).size();
  main.back() = number(0x8769, 4, uint32_t(cameraAt));
  FileBytes tiff;
  put(tiff, std::string("MM"));
  put(tiff, 42, 2);
  put(tiff, 8, 4);
  put(tiff, directory(main, 8));
  put(tiff, directory(camera, cameraAt));
  return tiff;
}

FileBytes encodePicture(const cv::Mat& bgr, const std::string& kind, const FileBytes& tiff) {
  FileBytes plain;
  cv::imencode("." + kind, bgr, plain);
  if (tiff.empty()) return plain;
  if (kind == "jpg") return jpegWithExif(plain, tiff);
  if (kind == "png") return pngWithExif(plain, tiff);
  return webpWithExif(plain, tiff, bgr.size());
}

FileBytes encodeHeic(const cv::Mat& bgr, const FileBytes& tiff) {
  heif_context* context = heif_context_alloc();
  heif_encoder* encoder = nullptr;
  FileBytes out;
  if (heif_context_get_encoder_for_format(context, heif_compression_HEVC, &encoder).code == 0) {
    heif_encoder_set_lossy_quality(encoder, 90);
    heif_image* image = nullptr;
    heif_image_create(bgr.cols, bgr.rows, heif_colorspace_RGB, heif_chroma_interleaved_RGB, &image);
    heif_image_add_plane(image, heif_channel_interleaved, bgr.cols, bgr.rows, 8);
    int stride = 0;
    uint8_t* plane = heif_image_get_plane(image, heif_channel_interleaved, &stride);
    cv::Mat rgb(bgr.size(), CV_8UC3, plane, size_t(stride));
    cv::cvtColor(bgr, rgb, cv::COLOR_BGR2RGB);
    heif_image_handle* handle = nullptr;
    heif_context_encode_image(context, image, encoder, nullptr, &handle);
    FileBytes block;
    put(block, std::string("Exif\0\0", 6));
    put(block, tiff);
    heif_context_add_exif_metadata(context, handle, block.data(), int(block.size()));
    heif_writer writer{1, [](heif_context*, const void* data, size_t size, void* to) {
                         const auto* from = static_cast<const uint8_t*>(data);
                         static_cast<FileBytes*>(to)->assign(from, from + size);
                         return heif_error{heif_error_Ok, heif_suberror_Unspecified, ""};
                       }};
    heif_context_write(context, &writer, &out);
    heif_image_handle_release(handle);
    heif_image_release(image);
    heif_encoder_release(encoder);
  }
  heif_context_free(context);
  return out;
}

FileBytes heifWithTurn(const std::vector<std::pair<std::string, int>>& turns) {
  FileBytes properties, association;
  put(association, 0, 4);  // version and flags
  put(association, 1, 4);  // one entry
  put(association, 1, 2);  // item 1
  put(association, uint32_t(turns.size()), 1);
  for (size_t i = 0; i < turns.size(); ++i) {
    put(properties, box(turns[i].first, {uint8_t(turns[i].second)}));
    put(association, uint32_t(0x80 | (i + 1)), 1);  // essential
  }
  FileBytes primary, meta, all;
  put(primary, 0, 4);
  put(primary, 1, 2);
  put(meta, 0, 4);
  put(meta, box("pitm", primary));
  FileBytes both = box("ipco", properties);
  put(both, box("ipma", association));
  put(meta, box("iprp", both));
  put(all, box("ftyp", {'h', 'e', 'i', 'c', 0, 0, 0, 0}));
  put(all, box("meta", meta));
  return all;
}

}  // namespace rackside::test
