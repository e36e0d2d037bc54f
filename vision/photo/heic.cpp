// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/photo/heic.h"

#include <libheif/heif.h>

#include <memory>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

template <auto Free>
struct Deleter {
  template <class T>
  void operator()(T* held) const {
    Free(held);
  }
};
using Context = std::unique_ptr<heif_context, Deleter<heif_context_free>>;
using Handle = std::unique_ptr<heif_image_handle, Deleter<heif_image_handle_release>>;
using Image = std::unique_ptr<heif_image, Deleter<heif_image_release>>;
using Options = std::unique_ptr<heif_decoding_options, Deleter<heif_decoding_options_free>>;

Error cannotDecode(const heif_error& error) {
  return {std::string("cannot be decoded (") + error.message +
          "); copy it again from the camera, or send it as JPEG"};
}

Bytes exifOf(const heif_image_handle* handle) {
  heif_item_id id = 0;
  if (heif_image_handle_get_list_of_metadata_block_IDs(handle, "Exif", &id, 1) != 1) return {};
  Bytes block(heif_image_handle_get_metadata_size(handle, id));
  if (block.size() < 8 || heif_image_handle_get_metadata(handle, id, block.data()).code != 0)
    return {};
  // Four bytes say how far on the TIFF structure begins.
  return exifBlock(block, 4 + size_t(bigEndian(block, 0, 4)), block.size());
}

}  // namespace

Result<HeicPicture> decodeHeic(const Bytes& bytes, double mostPixels) {
  const Context context(heif_context_alloc());
  heif_error error = heif_context_read_from_memory_without_copy(context.get(), bytes.data(),
                                                                bytes.size(), nullptr);
  if (error.code != heif_error_Ok) return cannotDecode(error);
  heif_image_handle* rawHandle = nullptr;
  error = heif_context_get_primary_image_handle(context.get(), &rawHandle);
  if (error.code != heif_error_Ok) return cannotDecode(error);
  const Handle handle(rawHandle);
  const double pixels =
      double(heif_image_handle_get_width(rawHandle)) * heif_image_handle_get_height(rawHandle);
  if (pixels >= mostPixels)
    return Error{"has " + std::to_string(int(pixels / 1e6)) +
                 " megapixels; set the camera to less than " +
                 std::to_string(int(mostPixels / 1e6))};
  const Options options(heif_decoding_options_alloc());
  options->ignore_transformations = 1;
  heif_image* rawImage = nullptr;
  error = heif_decode_image(rawHandle, &rawImage, heif_colorspace_RGB, heif_chroma_interleaved_RGB,
                            options.get());
  if (error.code != heif_error_Ok) return cannotDecode(error);
  const Image image(rawImage);
  int stride = 0;
  uint8_t* plane = heif_image_get_plane(rawImage, heif_channel_interleaved, &stride);
  const cv::Mat rgb(heif_image_get_height(rawImage, heif_channel_interleaved),
                    heif_image_get_width(rawImage, heif_channel_interleaved), CV_8UC3, plane,
                    size_t(stride));
  HeicPicture picture;
  cv::cvtColor(rgb, picture.bgr, cv::COLOR_RGB2BGR);
  picture.exif = exifOf(rawHandle);
  return picture;
}

}  // namespace rackside
