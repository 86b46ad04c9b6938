#!/bin/sh
# Compares our values with those of independent programs packaged by Debian: iapws and SciPy.
#
#     against_python.sh <print_values> <cache folder>
#
# The packages are fetched and unpacked into the cache folder, never installed: python3-scipy
# wants Boost headers of another version than ours.  Fails, never skips, if they cannot be had.
set -eu

print_values=$1
cache=$2
here=$(dirname "$(readlink -f "$0")")
packages='python3-iapws python3-scipy python3-numpy python3-decorator
  liblbfgsb0 libblas3 liblapack3 libgfortran5 libquadmath0'

if [ ! -e "$cache/complete" ]; then
    rm -rf "$cache"
    mkdir -p "$cache/debs" "$cache/root"
    # shellcheck disable=SC2086
    (cd "$cache/debs" && apt-get download $packages) || {
        echo "against_python.sh: the Debian packages cannot be fetched; run apt-get update and" \
            "see that the mirror is reachable" >&2
        exit 1
    }
    for package in "$cache"/debs/*.deb; do
        dpkg -x "$package" "$cache/root"
    done
    touch "$cache/complete"
fi

libraries=$(find "$cache/root/usr/lib" -name '*.so*' -not -path '*/python3/*' \
    -exec dirname {} + | sort -u | tr '\n' ':')
# Written to a file first: a pipe would hide that the program failed.
"$print_values" >"$cache/values.csv"
PYTHONPATH="$cache/root/usr/lib/python3/dist-packages" LD_LIBRARY_PATH="$libraries" \
    PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 "$here/against_python.py" "$cache/values.csv"
