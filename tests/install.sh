# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced by tests/run.sh and samples/demo.sh: Debian packages and the build, said once.

build_packages=(
  g++ cmake ninja-build pkg-config
  libopencv-dev libopencv-contrib-dev libceres-dev
  qt6-base-dev qt6-svg-dev qt6-httpserver-dev qt6-websockets-dev qt6-tools-dev qt6-l10n-tools
  nlohmann-json3-dev libpolyclipping-dev libglpk-dev libcli11-dev
  libheif-dev libexif-dev libjpeg-dev libqrencode-dev
  catch2 libdxflib-dev fonts-dejavu-core
)
test_packages=(
  git clang-format clang-tidy poppler-utils xvfb povray libimage-exiftool-perl ca-certificates
)

# Installs what is missing; with nothing missing it asks for no rights and no network.
install_missing() {
  local package missing=()
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
      missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  echo "Installing: ${missing[*]}"
  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
      echo "These Debian packages are missing; run this as root once, or install them:" >&2
      echo "  apt-get install --no-install-recommends ${missing[*]}" >&2
      return 1
    fi
    as_root=(sudo)
  fi
  "${as_root[@]}" apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y -qq --no-install-recommends "${missing[@]}"
}

# build_rackside DIR [TARGET…]: configures and builds with as many jobs as processors and memory
# carry (the largest files want about 1.5 GB each).
build_rackside() {
  local folder=$1 processors memory_gb jobs
  shift
  processors=$(nproc)
  memory_gb=$(awk '/MemAvailable/ {print int($2 / 1500000)}' /proc/meminfo)
  jobs=$((memory_gb < processors ? memory_gb : processors))
  [ "$jobs" -ge 1 ] || jobs=1
  cmake -G Ninja -S . -B "$folder" -DCMAKE_BUILD_TYPE=Release -DRACKSIDE_PRECOMPILE=ON
  local targets=()
  local target
  for target in "$@"; do targets+=(--target "$target"); done
  cmake --build "$folder" -j "$jobs" "${targets[@]}"
}
