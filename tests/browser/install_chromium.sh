#!/bin/sh
# Installs Debian's chromium for the tests of the pages, where no such browser is on the PATH. Safe to run again.
set -eu
for name in chromium chromium-browser google-chrome google-chrome-stable; do
    if found=$(command -v "$name"); then
        echo "A browser is there already: $found"
        exit 0
    fi
done
echo "Installing Debian's chromium with apt-get."
as_root=""
[ "$(id -u)" -eq 0 ] || as_root="sudo"
$as_root apt-get update -qq
DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends chromium
