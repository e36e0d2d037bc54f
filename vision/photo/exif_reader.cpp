// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/photo/exif_reader.h"

#include <libexif/exif-data.h>

#include <memory>

namespace rackside {
namespace {

struct Unref {
  void operator()(ExifData* data) const { exif_data_unref(data); }
};
using Data = std::unique_ptr<ExifData, Unref>;

const ExifEntry* entryOf(const Data& data, ExifIfd ifd, ExifTag tag) {
  return exif_content_get_entry(data->ifd[ifd], tag);
}

std::string textOf(const Data& data, ExifIfd ifd, ExifTag tag) {
  const ExifEntry* entry = entryOf(data, ifd, tag);
  if (!entry || entry->format != EXIF_FORMAT_ASCII || !entry->data) return {};
  std::string text(reinterpret_cast<const char*>(entry->data), entry->size);
  text = text.substr(0, text.find('\0'));
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

std::optional<double> rationalOf(const Data& data, ExifIfd ifd, ExifTag tag) {
  const ExifEntry* entry = entryOf(data, ifd, tag);
  if (!entry || entry->format != EXIF_FORMAT_RATIONAL || entry->size < 8) return std::nullopt;
  const ExifRational r = exif_get_rational(entry->data, exif_data_get_byte_order(data.get()));
  if (r.denominator == 0 || r.numerator == 0) return std::nullopt;
  return double(r.numerator) / double(r.denominator);
}

std::optional<int> shortOf(const Data& data, ExifIfd ifd, ExifTag tag) {
  const ExifEntry* entry = entryOf(data, ifd, tag);
  if (!entry || entry->format != EXIF_FORMAT_SHORT || entry->size < 2) return std::nullopt;
  return exif_get_short(entry->data, exif_data_get_byte_order(data.get()));
}

std::optional<long> shortOrLongOf(const Data& data, ExifIfd ifd, ExifTag tag) {
  const ExifEntry* entry = entryOf(data, ifd, tag);
  if (!entry || !entry->data) return std::nullopt;
  const ExifByteOrder order = exif_data_get_byte_order(data.get());
  if (entry->format == EXIF_FORMAT_SHORT && entry->size >= 2)
    return long(exif_get_short(entry->data, order));
  if (entry->format == EXIF_FORMAT_LONG && entry->size >= 4)
    return long(exif_get_long(entry->data, order));
  return std::nullopt;
}

// "2026:03:14 09:26:53" and an offset such as "+01:00" → ISO 8601.
std::string isoTime(const std::string& time, const std::string& offset) {
  if (time.size() < 19 || time[4] != ':' || time[10] != ' ') return {};
  std::string iso = time.substr(0, 19);
  iso[4] = iso[7] = '-';
  iso[10] = 'T';
  return iso + offset;
}

// Focal plane resolution counts pixels of the sensor's full picture; the unit is 2: inch, 3: cm.
// Makers round it and some write it for another raster, so a sensor of 3 to 60 mm must come out.
std::optional<double> sensorPitch(const Data& data) {
  const auto resolution = rationalOf(data, EXIF_IFD_EXIF, EXIF_TAG_FOCAL_PLANE_X_RESOLUTION);
  const auto unit = shortOf(data, EXIF_IFD_EXIF, EXIF_TAG_FOCAL_PLANE_RESOLUTION_UNIT);
  const auto width = shortOrLongOf(data, EXIF_IFD_EXIF, EXIF_TAG_PIXEL_X_DIMENSION);
  if (!resolution || !unit || !width || (*unit != 2 && *unit != 3)) return std::nullopt;
  const double pxPerMm = *resolution / (*unit == 2 ? 25.4 : 10.0);
  const double sensorMm = double(*width) / pxPerMm;
  if (sensorMm < 3 || sensorMm > 60) return std::nullopt;
  return pxPerMm;
}

}  // namespace

Exif readExif(const Bytes& tiff) {
  Exif exif;
  if (tiff.empty()) return exif;
  Bytes block = {'E', 'x', 'i', 'f', 0, 0};
  block.insert(block.end(), tiff.begin(), tiff.end());
  const Data data(exif_data_new_from_data(block.data(), unsigned(block.size())));
  if (!data) return exif;
  exif.make = textOf(data, EXIF_IFD_0, EXIF_TAG_MAKE);
  exif.model = textOf(data, EXIF_IFD_0, EXIF_TAG_MODEL);
  exif.lens = textOf(data, EXIF_IFD_EXIF, static_cast<ExifTag>(0xA434));  // LensModel
  exif.focalMm = rationalOf(data, EXIF_IFD_EXIF, EXIF_TAG_FOCAL_LENGTH);
  if (const auto mm = shortOf(data, EXIF_IFD_EXIF, EXIF_TAG_FOCAL_LENGTH_IN_35MM_FILM))
    if (*mm > 0) exif.focal35Mm = *mm;
  exif.sensorPxPerMm = sensorPitch(data);
  if (const auto turn = shortOf(data, EXIF_IFD_0, EXIF_TAG_ORIENTATION))
    if (*turn >= 1 && *turn <= 8) exif.orientation = *turn;
  exif.takenAt = isoTime(textOf(data, EXIF_IFD_EXIF, EXIF_TAG_DATE_TIME_ORIGINAL),
                         textOf(data, EXIF_IFD_EXIF, EXIF_TAG_OFFSET_TIME_ORIGINAL));
  return exif;
}

}  // namespace rackside
