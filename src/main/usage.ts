export const USAGE = `Coatbell: how much to mix, when the next coat goes on, and who has the job.

  npm start                                  the local chat
  npm start --silent -- <verb> [options]

  chat    the local chat: at a terminal with a prompt, from a pipe line by line
            --json         one JSON object for each message
            --at TIME      a clock that stands still and moves by + lines: --at 2026-03-02T08:00
            --zone ZONE    the time zone, instead of the configured one: --zone Europe/Berlin
            --data DIR     where everything is stored (.data)
            --config DIR   your own materials.yaml, recipes.yaml or studio.yaml
  demo    a job of three days in less than a minute
  check   looks through the configuration files: check --config DIR
  help    this page
`;

/** A call of the program that cannot be understood. */
export class WrongUsage extends Error {}
