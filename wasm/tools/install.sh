#!/bin/sh
# install.sh PROGRAM...: sees to it that the programs are there, by apt if one is
# missing. Does nothing, quickly, when all are.
set -eu

missing=
for program in "$@"; do
	command -v "$program" >/dev/null 2>&1 && continue
	case $program in
	WebKitWebDriver) package=webkit2gtk-driver ;;
	Xvfb) package=xvfb ;;
	node) package=nodejs ;;
	*) package=$program ;;
	esac
	missing="$missing $package"
done
[ -n "$missing" ] || exit 0

if ! command -v apt-get >/dev/null 2>&1; then
	echo "missing:$missing; there is no apt-get here, so please install them by hand" >&2
	exit 1
fi
if [ "$(id -u)" = 0 ]; then
	root=
elif command -v sudo >/dev/null 2>&1; then
	root=sudo
else
	echo "missing:$missing; please install them as root: apt-get install$missing" >&2
	exit 1
fi

echo "installing$missing"
# Another installation may be running; wait for it rather than fail.
apt="$root env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=500"
$apt update
$apt install -y --no-install-recommends $missing
