// Places where nothing is set up: a bare Debian root, or an empty folder with an empty home and hardly any environment.
import { execFileSync, spawn } from "node:child_process";
import {
  appendFileSync,
  copyFileSync,
  cpSync,
  mkdirSync,
  readFileSync,
  symlinkSync,
} from "node:fs";
import { dirname, join } from "node:path";

export interface Ended {
  readonly status: number;
  readonly stdout: string;
}

export interface Place {
  readonly name: string;
  /** Folder of this machine that the newcomer sees as `inside`. */
  readonly outside: string;
  readonly inside: string;
  /** What is printed, on both streams, goes to the log. */
  readonly run: (command: string, folder: string, log: string) => Promise<Ended>;
}

/** npm of the node that runs this script. */
const npm = () => dirname(dirname(process.env.npm_execpath ?? "/usr/lib/node_modules/npm/bin/x"));

/** How this machine reaches the network; nothing else of its environment is passed on. */
const network = [
  ...["http_proxy", "https_proxy", "no_proxy", "HTTP_PROXY", "HTTPS_PROXY", "NO_PROXY"],
  ...["npm_config_registry", "NODE_EXTRA_CA_CERTS"],
];

function environment(home: string, path: string): readonly string[] {
  const passed = network.flatMap((name) => {
    const value = process.env[name];
    return value === undefined || value === "" ? [] : [`${name}=${value}`];
  });
  return ["-i", `HOME=${home}`, `PATH=${path}`, ...passed];
}

/**
 * A Debian root with git and certificates, of the release of this machine so that its node runs there.
 * @param root  an empty folder, or one that debootstrap has filled
 * @param made  whether it is filled
 */
export function bareDebian(root: string, made: boolean): Place {
  if (!made) {
    const release = /^VERSION_CODENAME=(.*)$/m.exec(readFileSync("/etc/os-release", "utf8"))![1]!;
    const packages = "--include=ca-certificates,git";
    execFileSync("debootstrap", ["--variant=minbase", packages, release, root], {
      stdio: "ignore",
    });
  }
  const modules = join(root, "usr/local/lib/node_modules");
  mkdirSync(modules, { recursive: true });
  copyFileSync(process.execPath, join(root, "usr/local/bin/node"));
  cpSync(npm(), join(modules, "npm"), { recursive: true });
  for (const name of ["npm", "npx"]) {
    const script = `../lib/node_modules/npm/bin/${name}-cli.js`;
    execFileSync("ln", ["-sf", script, join(root, "usr/local/bin", name)]);
  }
  copyFileSync("/etc/resolv.conf", join(root, "etc/resolv.conf"));
  const certificates = process.env.NODE_EXTRA_CA_CERTS;
  if (certificates !== undefined) {
    mkdirSync(join(root, dirname(certificates)), { recursive: true });
    copyFileSync(certificates, join(root, certificates));
  }
  const inside = "/root";
  const words = environment(inside, "/usr/local/bin:/usr/bin:/bin");
  return {
    name: "a bare Debian root",
    outside: join(root, inside),
    inside,
    // The mount of /proc lives and ends with this process.
    run: (command, folder, log) =>
      ended(log, "unshare", [
        ...["--mount", "sh", "-c", 'mount -t proc proc "$0/proc" && exec chroot "$0" "$@"', root],
        ...["/usr/bin/env", ...words, "bash", "-c", `cd ${folder} && ${command}`],
      ]),
  };
}

/** @param folder an empty folder */
export function emptyFolder(folder: string): Place {
  const bin = join(folder, "bin");
  const home = join(folder, "home");
  for (const made of [bin, home]) mkdirSync(made);
  symlinkSync(process.execPath, join(bin, "node"));
  for (const name of ["npm", "npx"]) {
    symlinkSync(join(npm(), "bin", `${name}-cli.js`), join(bin, name));
  }
  const words = environment(home, `${bin}:/usr/bin:/bin`);
  return {
    name: "an empty folder with an empty home",
    outside: home,
    inside: home,
    run: (command, where, log) =>
      ended(log, "/usr/bin/env", [...words, "bash", "-c", `cd ${where} && ${command}`]),
  };
}

function ended(log: string, command: string, words: readonly string[]): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(command, words, { stdio: ["ignore", "pipe", "pipe"] });
    for (const stream of [child.stdout, child.stderr]) {
      stream.on("data", (bytes: Buffer) => appendFileSync(log, bytes));
    }
    const parts: Buffer[] = [];
    child.stdout.on("data", (bytes: Buffer) => parts.push(bytes));
    child.on("error", reject);
    child.on("close", (status) =>
      resolve({ status: status ?? 1, stdout: Buffer.concat(parts).toString("utf8") }),
    );
  });
}
