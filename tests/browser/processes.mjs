// Starts the programs a browser test needs and ends every one of them, by process group.
import { spawn } from "node:child_process";
import { readFileSync, readdirSync, readlinkSync, realpathSync } from "node:fs";
import { createServer } from "node:net";
import { setTimeout as sleep } from "node:timers/promises";

/** @type {Set<import("node:child_process").ChildProcess>} */
const running = new Set();

/** Starts a program as the leader of its own process group, so that its children end with it. */
export function start(program, args, { env = process.env, stdio = "ignore" } = {}) {
  const child = spawn(program, args, { env, stdio, detached: true });
  running.add(child);
  child.once("exit", () => running.delete(child));
  child.once("error", (fault) => console.error(`${program}: ${fault.message}`));
  return child;
}

/** Ends a program and its children; resolves when it is gone. */
export async function stop(child) {
  if (child.pid === undefined || child.exitCode !== null || child.signalCode !== null) return;
  const gone = new Promise((resolve) => child.once("exit", resolve));
  signalGroup(child.pid, "SIGTERM");
  const late = setTimeout(() => signalGroup(child.pid, "SIGKILL"), 3_000);
  await gone;
  clearTimeout(late);
  signalGroup(child.pid, "SIGKILL");
}

function signalGroup(pid, signal) {
  try {
    process.kill(-pid, signal);
  } catch (fault) {
    if (fault.code !== "ESRCH") throw fault;
  }
}

process.once("exit", () => {
  for (const child of running) signalGroup(child.pid, "SIGKILL");
});
for (const signal of ["SIGINT", "SIGTERM"]) process.once(signal, () => process.exit(130));

/** A port nobody listens on now. */
export function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

let display;

/** The one virtual screen of this test run, large enough for every size the tests use. */
export function virtualDisplay() {
  display ??= openDisplay();
  return display;
}

function openDisplay() {
  const args = ["-displayfd", "3", "-screen", "0", "1600x1600x24", "-nolisten", "tcp"];
  const xvfb = start("Xvfb", args, { stdio: ["ignore", "ignore", "ignore", "pipe"] });
  return new Promise((resolve, reject) => {
    let number = "";
    xvfb.stdio[3].on("data", (part) => {
      number += part;
      // Xvfb writes the number and the line's end apart; it dies when the pipe closes between them.
      if (!number.endsWith("\n")) return;
      // The screen must not keep the test run alive; it ends with it.
      xvfb.stdio[3].destroy();
      xvfb.unref();
      resolve(`:${number.trim()}`);
    });
    xvfb.once("error", reject);
    xvfb.once("exit", (code) => reject(new Error(`Xvfb ended at once (${code})`)));
  });
}

/** Process ids of descendants of `ancestor` that run the file `binary`. */
export function descendantsRunning(ancestor, binary) {
  const wanted = realpathSync(binary);
  return processes().filter((one) => one.exe === wanted && descends(one.pid, ancestor)).map((one) => one.pid);
}

/** Process ids of descendants of `ancestor` whose program has this file name. */
export function descendantsNamed(ancestor, name) {
  return processes()
    .filter((one) => one.exe.endsWith(`/${name}`) && descends(one.pid, ancestor))
    .map((one) => one.pid);
}

/** A process and all its descendants. */
export function familyOf(pid) {
  return processes().filter((one) => descends(one.pid, pid)).map((one) => one.pid);
}

function processes() {
  return readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name))
    .flatMap((name) => {
      try {
        return [{ pid: Number(name), exe: readlinkSync(`/proc/${name}/exe`) }];
      } catch {
        return []; // ended meanwhile, or a kernel thread
      }
    });
}

/**
 * Internet sockets these processes hold, as the kernel writes them: "tcp 0100007F:1F90 00000000:0000". `exceptPort`:
 * on this machine alone, where WebKit's own driver speaks to the program that it has started and the program's parts
 * report to it; nothing that a person starts has one.
 */
export function internetSockets(pids, exceptPort) {
  const held = new Set(pids.flatMap(socketsOf));
  return ["tcp", "tcp6", "udp", "udp6", "raw", "raw6"].flatMap((kind) =>
    readFileSync(`/proc/net/${kind}`, "utf8").trim().split("\n").slice(1).map((line) => line.trim().split(/\s+/))
      .filter((fields) => held.has(fields[9]))
      .map(([, local, remote]) => [local, remote])
      .filter((ends) => !ends.includes(loopback(exceptPort)))
      .map((ends) => [kind, ...ends].join(" ")));
}

function loopback(port = 0) {
  return `0100007F:${port.toString(16).toUpperCase().padStart(4, "0")}`;
}

/** Inode numbers of the sockets that a process has open. */
function socketsOf(pid) {
  return readdirSync(`/proc/${pid}/fd`).flatMap((fd) => {
    try {
      return /^socket:\[(\d+)\]$/.exec(readlinkSync(`/proc/${pid}/fd/${fd}`))?.[1] ?? [];
    } catch {
      return []; // closed meanwhile
    }
  });
}

/** One variable of the environment that a process was started with. */
export function startedWith(pid, name) {
  const all = readFileSync(`/proc/${pid}/environ`, "utf8").split("\0");
  return all.find((one) => one.startsWith(`${name}=`))?.slice(name.length + 1);
}

/** When a process was started, in clock ticks since boot; after all others when it has ended. */
export function bornAt(pid) {
  try {
    return Number(readFileSync(`/proc/${pid}/stat`, "utf8").replace(/^.*\) /, "").split(" ")[19]);
  } catch {
    return Infinity;
  }
}

function descends(pid, ancestor) {
  for (let at = pid; at > 1; at = parentOf(at)) if (at === ancestor) return true;
  return false;
}

function parentOf(pid) {
  try {
    return Number(readFileSync(`/proc/${pid}/stat`, "utf8").replace(/^.*\) /, "").split(" ")[1]);
  } catch {
    return 0;
  }
}

/** Tries `attempt` until it gives a value other than undefined, null or false. */
export async function until(what, attempt, { timeoutMs = 60_000, everyMs = 25 } = {}) {
  const end = Date.now() + timeoutMs;
  let last;
  while (Date.now() < end) {
    try {
      const value = await attempt();
      if (value !== undefined && value !== null && value !== false) return value;
      last = undefined;
    } catch (fault) {
      last = fault;
    }
    await sleep(everyMs);
  }
  throw new Error(`waited ${timeoutMs} ms for ${what}${last ? `: ${last.message}` : ""}`);
}
