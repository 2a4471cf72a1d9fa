// A house for a test: build/lynearm serve over a data folder of its own, on a free port, and gone
// with its folder when the test ends. It can be stopped as a person stops it, killed as a pulled plug
// kills it, and started again at the same address. LYNEARM names another program.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtemp, realpath, rm, writeFile } from 'node:fs/promises';
import { existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const program =
  process.env.LYNEARM ?? fileURLToPath(new URL('../../build/lynearm', import.meta.url));

const pause = (ms) => new Promise((then) => setTimeout(then, ms));

/**
 * Starts a house and waits until it answers.
 * Options: demo, lan, tls (true or false); name, a host name it answers to; clock: whether its clocks
 * can be set by setAhead(ms) and pass(ms); disk: whether fillDisk() fills its disk and freeDisk() makes
 * room again; args, more words of the command line. Gives url (loopback), port, said() (what it
 * printed), get(path) and post(path, body) of /api/v1, stop(), kill(), restart(), and end(), which also
 * removes the data folder.
 */
export async function openHouse({
  demo = false,
  lan = false,
  tls = false,
  name,
  clock = false,
  disk = false,
  args = [],
} = {}) {
  const own = await realpath(await mkdtemp(join(tmpdir(), 'lynearm-e2e-')));
  const data = join(own, 'house');
  const clockFile = join(own, 'clock');
  const ahead = Buffer.alloc(16);
  const setClock = (ms, at) => {
    ahead.writeBigInt64LE(BigInt(Math.round(ms)) * 1_000_000n, at);
    return writeFile(clockFile, ahead, { flag: existsSync(clockFile) ? 'r+' : 'w' });
  };
  const setAhead = (ms) => setClock(ms, 0);
  const env = { ...process.env };
  const preload = (name) => {
    const shim = join(own, `${name}.so`);
    const source = fileURLToPath(new URL(`${name}.c`, import.meta.url));
    execFileSync(process.env.CC ?? 'cc', ['-O1', '-shared', '-fPIC', '-o', shim, source, '-ldl']);
    env.LD_PRELOAD = [env.LD_PRELOAD, shim].filter(Boolean).join(':');
  };
  if (clock) {
    preload('house_clock');
    await setAhead(0);
    env.LYNEARM_E2E_CLOCK = clockFile;
  }
  const full = join(own, 'full');
  if (disk) {
    preload('house_disk');
    env.LYNEARM_E2E_DISK = data;
    env.LYNEARM_E2E_FULL = full;
  }
  let child;
  let said = '';
  let port = 0;

  async function start() {
    const words = ['serve', '--data', data, '--port', String(port)];
    if (demo) words.push('--demo');
    if (lan) words.push('--lan');
    if (tls) words.push('--tls');
    if (name) words.push('--name', name);
    said = '';
    const now = spawn(program, [...words, ...args], { stdio: ['ignore', 'pipe', 'pipe'], env });
    child = now;
    now.gone = new Promise((then) => now.once('exit', (code, signal) => then({ code, signal })));
    for (const stream of [now.stdout, now.stderr]) {
      stream.setEncoding('utf8');
      stream.on('data', (text) => (said += text));
    }
    for (const until = Date.now() + 20_000; Date.now() < until; await pause(20)) {
      if (now.exitCode !== null) throw new Error(`the house stopped at once: ${said}`);
      const found = /The workbench: https?:\/\/\S+?:(\d+)\//.exec(said);
      if (!found) continue;
      port = Number(found[1]);
      // Over TLS Node does not know the house's certificate: that it listens is enough.
      if (tls) return;
      const well = await fetch(`http://127.0.0.1:${port}/healthz`).catch(() => undefined);
      if (well?.ok) return;
    }
    throw new Error(`the house did not answer: ${said}`);
  }

  async function end(signal) {
    if (child.exitCode === null && child.signalCode === null) child.kill(signal);
    return child.gone;
  }

  await start();
  const api = `http://127.0.0.1:${port}/api/v1`;
  const answer = async (path, init) => {
    const got = await fetch(api + path, init);
    const text = await got.text();
    if (!got.ok) throw new Error(`${path}: ${got.status} ${text}`);
    return JSON.parse(text);
  };
  return {
    url: `${tls ? 'https' : 'http'}://127.0.0.1:${port}`,
    port,
    data,
    setAhead,
    /** Lets so much time pass for what the house counts by itself, such as the life of a code. */
    pass: (ms) => setClock(ms, 8),
    fillDisk: () => writeFile(full, ''),
    freeDisk: () => rm(full),
    said: () => said,
    get: (path) => answer(path),
    post: (path, body) =>
      answer(path, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify(body),
      }),
    /** As Ctrl-C does; gives the exit code and signal. */
    stop: () => end('SIGINT'),
    /** As a pulled plug does. */
    kill: () => end('SIGKILL'),
    /** Again, at the same port and over the same data. */
    restart: async () => {
      await end('SIGINT');
      await start();
    },
    end: async () => {
      await end('SIGKILL');
      await rm(own, { recursive: true, force: true });
    },
  };
}
