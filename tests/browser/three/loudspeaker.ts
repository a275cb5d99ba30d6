import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const path = "/usr/bin/pulseaudio";

/** Something to play into for a browser that starts no clock without: a sound server whose one device is nowhere. */
export interface Loudspeaker {
  /** What a program must find in its environment to play there. */
  readonly environment: Readonly<Record<string, string>>;
  stop(): void;
}

/** @returns a loudspeaker of our own; one that does nothing where no sound server is installed */
export async function startLoudspeaker(): Promise<Loudspeaker> {
  if (!existsSync(path)) return { environment: {}, stop: () => {} };
  const folder = mkdtempSync(join(tmpdir(), "loudspeaker-"));
  const socket = join(folder, "socket");
  const modules = ["module-null-sink", `module-native-protocol-unix socket=${socket} auth-anonymous=1`];
  const server = spawn(
    path,
    [
      "-n",
      "--daemonize=no",
      "--exit-idle-time=-1",
      "--use-pid-file=no",
      ...modules.map((one) => `--load=${one}`),
    ],
    { stdio: "ignore", env: { ...process.env, HOME: folder, XDG_RUNTIME_DIR: folder } },
  );
  while (!existsSync(socket) && server.exitCode === null)
    await new Promise((resolve) => setTimeout(resolve, 20));
  return {
    environment: { PULSE_SERVER: `unix:${socket}` },
    stop() {
      server.kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
