# shellcheck shell=bash
# Sourced by start and test: what both need from the machine.

fail() {
  printf '%s\n' "$@" >&2
  exit 1
}

# The SDK that global.json asks for. Run in the repository's folder.
require_dotnet() {
  command -v dotnet >/dev/null ||
    fail 'The .NET SDK 10 is needed: https://dotnet.microsoft.com/download/dotnet/10.0 (or apt-get install dotnet-sdk-10.0, where the distribution has it).'
  dotnet --version >/dev/null 2>&1 ||
    fail "global.json asks for a .NET SDK that is not installed:" "$(dotnet --version 2>&1 | head -n 3)"
}

have_postgres_binaries() {
  [[ -x ${PREAPPROVAL_PG_BIN:-/nonexistent}/initdb ]] || compgen -G '/usr/lib/postgresql/*/bin/initdb' >/dev/null
}

# Installs Debian packages, as root or through sudo.
install_packages() {
  local -a as_root=()
  command -v apt-get >/dev/null ||
    fail "These must be installed first, and apt-get is not here to do it: $*"
  if [[ $EUID -ne 0 ]]; then
    command -v sudo >/dev/null ||
      fail "These must be installed first: $*" "Run as root: apt-get install $*"
    echo "Installing with sudo: $*"
    as_root=(sudo)
  else
    echo "Installing: $*"
  fi

  local try
  for try in 1 2 3; do
    # RUNLEVEL=1: no package may start a server of its own; the application runs a private one.
    if "${as_root[@]}" apt-get update -qq &&
      "${as_root[@]}" env RUNLEVEL=1 DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@" </dev/null; then
      return 0
    fi
    [[ $try -eq 3 ]] || sleep 5
  done
  fail "apt-get could not install: $*"
}
