export const USAGE = `Coatbell: how much to mix, when the next coat goes on, and who has the job.

  npm start                                  the local chat; with DISCORD_TOKEN set, serve
  npm start --silent -- <verb> [options]

  chat    the local chat: at a terminal with a prompt, from a pipe line by line
            --json         one JSON object for each message
            --at TIME      a clock that stands still and moves by + lines: --at 2026-03-02T08:00
            --zone ZONE    the time zone, instead of the configured one: --zone Europe/Berlin
            --data DIR     where everything is stored (.data)
            --config DIR   your own materials.yaml, recipes.yaml or studio.yaml
  serve   connects to the chat platform; .env.example names its settings
            --data DIR --config DIR, as above
  register   tells the platform which commands there are; nothing is sent if it knows them already
            --server ID    for one server only, where they are there at once
            --force        also if it knows them already
            --data DIR, as above
  demo    a job of three days in less than a minute
  check   looks through the configuration files: check --config DIR
  help    this page
`;

/** A call of the program that cannot be understood. */
export class WrongUsage extends Error {}
