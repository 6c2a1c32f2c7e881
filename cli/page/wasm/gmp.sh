#!/bin/sh
# GMP for WebAssembly, from the source of Debian's package: leaves FOLDER/gmp.h and FOLDER/libgmp.a.
#   sh cli/page/wasm/gmp.sh FOLDER
set -eu
mkdir -p "$1"
folder=$(cd "$1" && pwd)
[ -s "$folder/libgmp.a" ] && [ -s "$folder/gmp.h" ] && exit 0
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

# Sources are seldom among a machine's package lists: lists of our own, from where it has its packages.
mkdir -p "$scratch/lists/partial" "$scratch/source/doc" "$scratch/build"
where=$(apt-get indextargets --format '$(REPO_URI) $(CODENAME) $(COMPONENT)' 'Identifier: Packages' |
  grep -E ' [a-z]+ main$' | sort -u | head -n 1)
echo "deb-src [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] $where" >"$scratch/sources.list"
sources() {
  (cd "$scratch" && apt-get -qq -o Dir::Etc::sourcelist="$scratch/sources.list" -o Dir::Etc::sourceparts=- \
    -o Dir::State::lists="$scratch/lists" -o Dir::Cache::pkgcache= -o Dir::Cache::srcpkgcache= \
    -o APT::Sandbox::User=root "$@")
}
sources update
sources source --download-only gmp
tar xf "$scratch"/gmp_*.orig.tar.* -C "$scratch/source" --strip-components=1
printf 'all:\n' >"$scratch/source/doc/Makefile.in"  # Debian leaves its manual out

cd "$scratch/build"
# What raises a signal is there in name only: no_throw.cpp ends the program.
ac_cv_func_raise=yes CC="clang-22 --target=wasm32-wasi -D_WASI_EMULATED_SIGNAL" CFLAGS="-O2 -w" \
  RANLIB=true CC_FOR_BUILD=gcc ../source/configure --host=none-none-none --disable-assembly \
  --disable-shared >configure.log 2>&1 || { tail -n 20 configure.log >&2; exit 1; }
make -j "$(nproc)" >make.log 2>&1 || { tail -n 20 make.log >&2; exit 1; }
cp gmp.h .libs/libgmp.a "$folder"
