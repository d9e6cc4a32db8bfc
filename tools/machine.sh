# shellcheck shell=bash
# What ./start and ./prove share: which system this is, and how what is missing
# gets installed. Sourced; expects the project's root as the current folder.

say() { printf '%s\n' "$*"; }

# Debian 12 or later; testing and unstable carry no number.
is_debian() {
    [ -r /etc/os-release ] || return 1
    local id version
    id=$(. /etc/os-release && printf '%s' "${ID:-}")
    version=$(. /etc/os-release && printf '%s' "${VERSION_ID:-99}")
    [ "$id" = debian ] && [ "${version%%.*}" -ge 12 ]
}

is_installed() {
    [ "$(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null)" = installed ]
}

# need_packages "package: why" ... : installs those that are missing, or says
# the one line that would and stops.
need_packages() {
    local line missing=() names=() as_root=()
    for line in "$@"; do names+=("${line%%:*}"); done
    if ! is_debian; then
        say "This is not Debian 12 or later; Leat needs what these Debian packages hold:"
        printf '  %s\n' "$@"
        say "With them in place: meson setup build && ninja -C build"
        exit 2
    fi
    for line in "$@"; do
        is_installed "${line%%:*}" || missing+=("$line")
    done
    [ ${#missing[@]} -gt 0 ] || return 0
    names=("${missing[@]%%:*}")
    if [ "$(id -u)" -ne 0 ]; then
        if ! sudo -n true 2>/dev/null; then
            say "Some packages are missing, and this is neither root nor sudo without a password. Run:"
            say "apt-get install --no-install-recommends ${names[*]}"
            exit 2
        fi
        as_root=(sudo -n)
    fi
    say "Installing by apt what is missing:"
    printf '  %s\n' "${missing[@]}"
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -qq update
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -qq install -y \
        --no-install-recommends "${names[@]}" >/dev/null
}

need_build_packages() {
    need_packages \
        "gcc: compiles the program" \
        "libc6-dev: the C library's headers" \
        "meson: describes the build" \
        "ninja-build: runs the build" \
        "pkg-config: finds the libraries" \
        "libcsv-dev: reads tables" \
        "libjansson-dev: reads and writes JSON" \
        "coinor-libclp-dev: solves the linear relaxation of the plan" \
        "zlib1g-dev: what the solver's library is linked with" \
        "libical-dev: writes calendar files" \
        "libsqlite3-dev: keeps what happened on the farm" \
        "libmicrohttpd-dev: serves the pages" \
        "libsodium-dev: passphrases and tokens" \
        "libgnutls28-dev: certificates for the pages on other devices"
}

# What the tests of the pages need beside npm: a browser and the letters of
# every language.
need_page_packages() {
    need_packages \
        "chromium: opens the pages" \
        "fonts-noto-core: has the letters of every language"
}

# The newest release of clang has its sanitizers' library in a package of its
# own that carries its number.
clang_number() {
    apt-cache depends clang 2>/dev/null |
        sed -n 's/.*Depends: clang-\([0-9]*\)$/\1/p' | head -n 1
}

need_test_packages() {
    local more=()
    command -v node >/dev/null || more+=("nodejs: runs the proof of the plan")
    command -v npm >/dev/null || more+=("npm: fetches the solver of the proof")
    need_packages \
        "libcmocka-dev: runs the tests in C" \
        "clang: builds with sanitizers and fuzzes" \
        "clang-format: checks the layout of the code" \
        "clang-tidy: looks for mistakes in the code" \
        "libsundials-dev: integrates the hour a second time" \
        "coinor-cbc: solves the plan's model a second time" \
        "${more[@]}"
    need_packages \
        "libclang-rt-$(clang_number)-dev: the sanitizers' library"
}

# Builds into folder $1 with the options that follow; quiet unless it fails.
build_into() {
    local folder=$1 log
    shift
    log=$(mktemp)
    if { [ -f "$folder/build.ninja" ] || meson setup "$folder" "$@"; } \
            >"$log" 2>&1 && ninja -C "$folder" >>"$log" 2>&1; then
        rm -f "$log"
        return 0
    fi
    tail -n 60 "$log"
    say "The build failed; the whole log is $log"
    return 1
}

# As people run it: linked as one program, about a sixteenth faster by the hour.
# shellcheck disable=SC2034
release=(--buildtype=release -Db_lto=true "-Db_lto_threads=$(nproc)")

# Bundles the pages into web/dist, which the next build of Leat carries. Node
# and npm come from apt only where npm is absent. Nothing is done anew where
# nothing in web/ has changed.
build_pages() {
    local log
    if [ -f web/dist/app.js ] && [ -z "$(find web -newer web/dist/app.js \
            -type f -not -path 'web/dist/*' -not -path '*/node_modules/*' \
            -print -quit)" ]; then
        return 0
    fi
    command -v npm >/dev/null || need_packages \
        "nodejs: bundles the pages" \
        "npm: fetches what the pages are made with"
    log=$(mktemp)
    if (cd web && npm ci --no-audit --no-fund && npm run build) >"$log" 2>&1
    then
        rm -f "$log"
        return 0
    fi
    tail -n 40 "$log"
    say "The pages were not built; the whole log is $log"
    return 1
}
