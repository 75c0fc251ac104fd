/** How many versions the racers try for. */
export const RACES = 60;

/** What the batch with this version holds: of different lengths, some over several pages, so that a torn one shows. */
export const batchOf = (version: number): unknown[] =>
  Array.from({ length: 1 + (version % 4) }, (_, index) => ({
    version,
    index,
    text: `${version}.`.repeat((version * 37) % 4000),
  }));
