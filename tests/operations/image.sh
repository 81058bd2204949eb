#!/usr/bin/env bash
# Tries the image built from the Containerfile and keeps what it measured in image.json, which DEVELOPERS.md tells:
#   buildah bud -t doorpost . && tests/operations/image.sh "$(buildah mount "$(buildah from doorpost)")" buildah
# As root on Linux. The image's own command and health check run in its files, which are read-only but for /data and /tmp,
# as user 1000 and without capabilities.
set -euo pipefail
cd "$(dirname "$0")"
root=$1 tool=$2
export PORT=3917 HOST=127.0.0.1 DATA_DIR=/data NODE_ENV=production
data=$(mktemp -d) && chown 1000:1000 "$data"

# What the Containerfile says after CMD or HEALTHCHECK, run with the given words before it.
say() { node -e 'const t = fs.readFileSync("../../Containerfile", "utf8"); for (const w of JSON.parse(new RegExp(process.argv[1], "m").exec(t)[1])) process.stdout.write(w + "\0")' "$1"; }
mapfile -d '' serve < <(say '^CMD (\[.*\])$')
mapfile -d '' health < <(say '^HEALTHCHECK .*CMD (\[.*\])$')

# Becomes the command: in brackets or in the background.
inside() {
  exec unshare --mount -- bash -ec '
    root=$1 data=$2; shift 2
    mount --rbind "$root" "$root"; mount -t proc proc "$root/proc"; mount --rbind /dev "$root/dev"
    mount -t tmpfs tmpfs "$root/tmp"; mount --bind "$data" "$root/data"; mount -o remount,bind,ro "$root"
    exec chroot "$root" setpriv --reuid 1000 --regid 1000 --clear-groups --bounding-set=-all --inh-caps=-all --no-new-privs \
      -- sh -c "cd /app && exec \"\$@\"" sh "$@"' bash "$root" "$data" "$@"
}
seconds_since() { node -p "Math.round((Date.now() - $1) / 100) / 10"; }

# It is as said above, or nothing is measured.
(inside sh -c '! touch /app/x 2>/dev/null && touch /data/x /tmp/x && test "$(id -u)" = 1000 && ! grep "^Cap[PEB].*[1-9a-f]$" /proc/self/status')
began=$(node -p 'Date.now()')
inside "${serve[@]}" >"$data.log" 2>&1 &
until (inside "${health[@]}") 2>/dev/null; do
  kill -0 $! || { cat "$data.log"; exit 1; }
  [ "$(node -p "Date.now() - $began > 180000")" = false ] || { cat "$data.log"; exit 1; }
done
ready=$(seconds_since "$began")
began=$(node -p 'Date.now()')
kill -TERM $!
wait $!
stopped=$(seconds_since "$began")
megabytes=$(du -s --apparent-size --block-size=1MB -x "$root" | cut -f1)
# Seconds are this machine's and this hour's: said, not kept.
echo "ready after $ready s, ended $stopped s after SIGTERM, $(cut -d' ' -f1 /proc/loadavg) processes waiting"
node -p 'JSON.stringify({ on: new Date().toISOString().slice(0, 10), with: process.argv[2], megabytes: +process.argv[1] }, null, 2)' \
  "$megabytes" "$tool" | tee image.json
rm -rf "$data" "$data.log"
