import { Refusal } from '../../words/refusal.ts';
import { plain, say, type Text } from '../../words/text.ts';

/** A larger one takes seconds to read, in which nobody else is answered, and no mould shows the difference. */
export const MOST_TRIANGLES = 2_000_000;

const AGAIN = plain(' Export it again as binary STL, in millimetres.');

/** A mesh that will not do: `why` says what was expected and what was got. */
const no = (code: string, why: Text): Refusal => new Refusal(code, [...why, AGAIN], { example: 'lion.stl' });

/** `mesh-unreadable`: right kind, wrong contents. */
export const unreadable = (why: Text): Refusal => no('mesh-unreadable', why);
/** `mesh-broken-off`: the end is missing. */
export const brokenOff = (why: Text): Refusal => no('mesh-broken-off', why);
/** `mesh-empty`: nothing is in it that has an area. */
export const empty = (why: Text): Refusal => no('mesh-empty', why);
/** `mesh-kind`: something else than a mesh, or a mesh of a kind that is not read. */
export const otherKind = (got: Text): Refusal => no('mesh-kind', say`Expected a mesh as an STL, OBJ or PLY file, got ${got}.`);
/** `mesh-too-large`. */
export const tooLarge = (): Refusal =>
  new Refusal(
    'mesh-too-large',
    say`Expected at most ${MOST_TRIANGLES / 1e6} million triangles, got more. Thin the mesh out before you export it: half a million are plenty for an area.`,
    { example: 'lion.stl' },
  );

/** Nobody draws such a face, and cutting it up would keep everybody waiting. */
export const MOST_CORNERS_OF_FACE = 10_000;

/** `mesh-too-large`, of one face. */
export const tooManyCorners = (): Refusal =>
  no(
    'mesh-too-large',
    say`Expected faces of at most ${MOST_CORNERS_OF_FACE} corners, got one with more. Cut it into triangles first.`,
  );

/** A line of a file, to be shown in a refusal. */
export const shown = (line: string): string => {
  const trimmed = line.trim();
  return trimmed.length > 60 ? `${trimmed.slice(0, 60)}…` : trimmed;
};

/** Whether a number can be a place in a model; those beyond are no numbers of length, and their products would be endless. */
export const isPlace = (value: number): boolean => Math.abs(value) <= 1e12;
