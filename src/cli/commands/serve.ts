import { Command, InvalidArgumentError } from "commander";
import { startServer } from "../../web/server.ts";

export function serveCommand(): Command {
  return new Command("serve")
    .description("serve the pages on this machine")
    .option("--port <n>", "port on 127.0.0.1", portOf, 8080)
    .option("--data <dir>", "folder of the studies", "data")
    .action(async ({ port, data }: { readonly port: number; readonly data: string }) => {
      await startServer({ port, dataDir: data });
    });
}

function portOf(text: string): number {
  const port = Number(text);
  if (!(Number.isInteger(port) && port >= 1 && port <= 65535)) {
    throw new InvalidArgumentError("a port is a whole number from 1 to 65535.");
  }
  return port;
}
