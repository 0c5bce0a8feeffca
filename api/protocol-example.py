"""What a device has to say is kept in a folder until the book has it, and the book's log is copied there.
   python3 protocol-example.py URL TOKEN FOLDER < entries.jsonl     (see protocol.md; nothing but Python 3.8 or later)"""
import datetime, http.client, json, os, sys, time, urllib.error, urllib.request

url, token, folder = sys.argv[1:4]
os.makedirs(folder, exist_ok=True)
unsent, refused = os.path.join(folder, "unsent.jsonl"), os.path.join(folder, "refused.jsonl")

def ask(path, body=None):  # every request may be repeated, so a lost answer is asked for again
    for wait in (1, 2, 4, None):
        now = datetime.datetime.now(datetime.timezone.utc).isoformat(timespec="milliseconds")
        headers = {"Authorization": "Bearer " + token, "Byrebook-Time": now, "Content-Type": "application/cloudevents-batch+json"}
        try:
            with urllib.request.urlopen(urllib.request.Request(url + path, body, headers), timeout=30) as answer:
                return json.load(answer)
        except urllib.error.HTTPError as error:
            said, after = error.read().decode(errors="replace"), int(error.headers.get("Retry-After") or 0)
            if error.code not in (429, 503) or wait is None or after > 60: sys.exit(f"{error.code} {said}")
            wait = max(wait, after)
        except (OSError, ValueError, http.client.HTTPException) as error:
            if wait is None: sys.exit(f"No answer from {url} ({error}); what is unsent is kept, run this again later")
        time.sleep(wait)

def read(path):  # whole lines only: what a power cut left half written is written again
    if not os.path.exists(path): return []
    with open(path, encoding="utf-8", newline="\n") as file: return [json.loads(line) for line in file.read().split("\n")[:-1]]

def write(path, entries, mode="w"):
    name = path + ".new" if mode == "w" else path
    with open(name, mode, encoding="utf-8", newline="\n") as file:
        file.writelines(json.dumps(entry, ensure_ascii=False) + "\n" for entry in entries)
        file.flush(), os.fsync(file.fileno())
    os.replace(name, path)

waiting = read(unsent) + [json.loads(line) for line in sys.stdin if line.strip()]
write(unsent, waiting)  # on the disk before it is sent
while waiting:
    receipts = ask("/sync/push", json.dumps(waiting[:500]).encode())["receipts"]
    turned_away = [{"entry": entry, "receipt": receipt} for entry, receipt in zip(waiting, receipts) if receipt["outcome"] == "refused"]
    write(refused, turned_away, "a")  # for a person to see; the book holds the cow until it is settled
    for each in turned_away: print(each["receipt"]["problem"])
    waiting = waiting[500:]
    write(unsent, waiting)

log = os.path.join(folder, ask("/sync/book")["book"] + ".jsonl")  # another book has another log
have = read(log)
write(log, have)
position = len(have)
while page := ask(f"/sync/pull?after={position}"):
    if int(page[0]["sequence"]) != position + 1: sys.exit(f"The log does not go on behind {position}")
    write(log, page, "a")
    position += len(page)
print(f"{position} entries in {log}")
