// SPDX-License-Identifier: GPL-3.0-or-later
// What the phones have sent, kept in the rack's folder until it is kept as a board or dropped by
// hand: RACK/.phone/<job id>/ with job.json, photo-1.jpg, … and out/ (the worker's pictures). It is
// no part of the rack; a restart finds it as it was.
#pragma once

#include <QByteArray>
#include <filesystem>
#include <functional>
#include <vector>

#include "app/serve/phone_job.h"

namespace rackside::serve {

inline constexpr int kMostPhotos = 12;  // of one walk along a board

// ".jpg", ".png", ".webp" or ".heic" by its first bytes; empty for anything else.
std::string pictureEnding(const QByteArray& bytes);

class PhoneQueue {
 public:
  struct Limits {
    size_t jobs = 400;                       // not kept yet
    std::uintmax_t freeBytes = 300'000'000;  // stay free on the disk
  };
  // Fails when the folder cannot be made. Records that cannot be read are left where they are.
  static Result<PhoneQueue> open(const std::filesystem::path& rackFolder, Limits limits);

  const std::vector<PhoneJob>& jobs() const { return jobs_; }
  const PhoneJob* find(const std::string& id) const;

  // The picture `number` (from 1) of a job, which it begins when it is the first. One that is there
  // already is a success. On failure nothing is half written.
  Status take(const PhoneJob& wish, int number, const QByteArray& picture);
  // Replaces the record of the same id.
  Status change(const PhoneJob& job);
  // Away with it, pictures and all.
  Status drop(const std::string& id);
  // Once kept, only its record stays, for the list of the day.
  void forgetPictures(const std::string& id);

  std::filesystem::path folderOf(const std::string& id) const { return folder_ / id; }
  std::vector<std::filesystem::path> photosOf(const PhoneJob& job) const;
  // A picture the worker made: "seen-1.jpg", "small.jpg", "face.jpg".
  std::filesystem::path outOf(const std::string& id) const { return folder_ / id / "out"; }

  // Counts every change; tells whoever shows the queue.
  unsigned long long version() const { return version_; }

 private:
  PhoneQueue(std::filesystem::path folder, Limits limits)
      : folder_(std::move(folder)), limits_(limits) {}
  void readAll();
  Status roomFor(const PhoneJob* known, qsizetype bytes) const;
  Status write(const PhoneJob& job) const;

  std::filesystem::path folder_;
  Limits limits_;
  std::vector<PhoneJob> jobs_;  // the oldest first
  unsigned long long version_ = 0;
};

}  // namespace rackside::serve
