import { say, type Text } from '../../words/text.ts';

/** What is told to whoever names a living body as a surface. */
export const NOT_ON_THE_LIVING: Text = say`Not on a person or an animal. Only a material whose own sheet says it is made for skin, laid by somebody trained; plaster burns as it sets, and these resins sensitise.`;

/** Stands in the text that `isLiving` reads for each material that was named. */
export const MATERIAL = '#';

const OF_A_BODY =
  'arms?|forearms?|hands?|fingers?|fingertips?|thumbs?|fist|fists|palms?|wrists?|elbows?|shoulders?|legs?|knees?|thighs?|ankles?|foot|feet|toes?|' +
  'heels?|face|faces|head|heads|neck|ears?|nose|lips?|mouth|teeth|tooth|chin|cheeks?|skin|body|bodies|torso|chest|breasts?|belly|buttocks|limbs?|' +
  'person|persons|people|human|humans|man|woman|men|women|boy|girl|baby|babies|child|children|kid|kids|toddler|patient|actor|actress|myself|himself|herself|me|lifecast|life cast|life casting|' +
  'pet|pets|dog|dogs|puppy|cat|cats|kitten|horse|horses|rabbit|hamster|animal|animals|bird|birds|cow|pig|goat|sheep|paws?|hoof|hooves';
const BODY = new RegExp(`(?<= )(?:${OF_A_BODY})(?= )`);
/** Whether a word is one of a body: no slip of another. */
export const isBodyWord = (word: string): boolean => BODY.test(` ${word} `);

/** Words that leave no doubt of whose it is. */
const ALIVE =
  /(?<= )(?:my|your|his|her|our|their|real|human|live|living|alive|baby|babies|person|people|child|children|client|clients|customer|customers|patient|actor)(?= )/;

/** How hands work, and not what is worked on. */
const BY_HAND =
  /(?<= )hand (?:carved|made|painted|laid|turned|built|thrown|sculpted|modelled|modeled|finished|polished|rail)(?= )|(?<= )(?:second|first) hand(?= )/g;

/** What has a hand or a head, and never lived. */
const MADE =
  /(?<= )(?:mannequin|manikin|dummy|statue|statues|statuette|sculpture|figurine|doll|dolls|toy|puppet|carving|ornament|skull|skeleton|rubber)(?= )/;
/** After these comes what a thing lies on or in, not what it is of. */
const PLACE = 'on|onto|over|in|into|under|with|around|round|against|for|to|and';
const FREE = `(?:(?!(?:${PLACE}) )[^ #|]+ )`;
const OF_BEFORE = new RegExp(`# ${FREE}*(?:${OF_A_BODY})(?= )`);
const OF_AFTER = new RegExp(
  `(?<= )(?:${OF_A_BODY}) (?:(?:is |are )?(?:(?:made|carved|cast|modelled|modeled|sculpted|printed|turned) (?:of|from|in|out of) |of |from ))${FREE}{0,2}#`,
);
const BESIDE = new RegExp(`(?<= )(?:${OF_A_BODY}) #`);

/**
 * Whether the words speak of a living body: "my arm", "skin of a hand", "dog". A thing that is made like one is none, and
 * its material says so: "wooden hand", "hand of wax", "cast of my face in plaster" with its plaster before the face.
 * `words`: folded, with a space at both ends, and `MATERIAL` for each material.
 */
export function isLiving(words: string): boolean {
  const text = words.replace(BY_HAND, ' ');
  if (!BODY.test(text)) return false;
  if (OF_BEFORE.test(text) || OF_AFTER.test(text)) return false;
  return ALIVE.test(text) || !(BESIDE.test(text) || MADE.test(text));
}
