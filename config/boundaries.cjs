/** Imports point one way. Each rule says why it is there; see DEVELOPERS.md. */
const only = (from, to, why) => ({
  name: `${from}-knows-only-${to.join('-') || 'itself'}`,
  comment: why,
  severity: 'error',
  from: { path: `^src/${from}/` },
  to: { path: '^(src|commands|tests)/', pathNot: `^src/(${[from, ...to].join('|')})/` },
});

const PURE = 'It is pure: `now` is an argument, so that every minute of a three-day job can be tested in a second.';

module.exports = {
  forbidden: [
    only('words', [], 'What is said stands below everything else, so that every layer can refuse and speak in the same way.'),
    only('trade', ['words'], 'The trade’s knowledge must be usable, and testable, without jobs, channels or chat.'),
    only('job', ['trade', 'words'], 'A job is a fold of its events; it knows of no channel and of no message.'),
    only(
      'bench',
      ['job', 'trade', 'words'],
      'A bench reaches the outside through its ports alone, so that every store and every chat fits.',
    ),
    only('picture', [], 'How a picture lies on its canvas holds for any models; it knows no job and no bench.'),
    only('chat', ['words'], 'What a card and a command are holds for any bot; the trade must not leak into the parser.'),
    only(
      'cards',
      ['bench', 'chat', 'job', 'picture', 'trade', 'words'],
      'Cards only show: they neither ask for anything nor change anything.',
    ),
    only(
      'desk',
      ['bench', 'cards', 'chat', 'job', 'picture', 'trade', 'words'],
      'What commands share; it must not know which commands there are, or where they are typed.',
    ),
    {
      name: 'commands-stay-platform-free',
      comment: 'A command is declared once for all surfaces: one that knew its surface would have to be written twice.',
      severity: 'error',
      from: { path: '^commands/' },
      to: { path: '^(src/(adapters|main)|tests|commands)/' },
    },
    {
      name: 'adapters-never-know-each-other',
      comment: 'An adapter can be thrown out or added without touching another; only main joins them.',
      severity: 'error',
      from: { path: '^src/adapters/([^/]+)/' },
      to: { path: '^src/(adapters|main)/', pathNot: '^src/adapters/$1/' },
    },
    {
      name: 'the-platform-stays-in-its-adapter',
      comment: 'Whoever spoke with the chat platform besides its adapter would have to know its limits and its faults, too.',
      severity: 'error',
      from: { path: '^(src/(?!adapters/discord/)|commands/)' },
      to: { path: 'node_modules/(discord\\.js|@discordjs)/' },
    },
    {
      name: 'only-main-joins',
      comment: 'The composition root is where choices are made; whoever imported it could not be composed differently.',
      severity: 'error',
      from: { path: '^(src/(?!main/)|commands/)' },
      to: { path: '^src/main/' },
    },
    {
      name: 'nothing-ships-with-tests',
      comment: 'Test support is not installed where the bot runs.',
      severity: 'error',
      from: { path: '^(src|commands)/' },
      to: { path: '^tests/' },
    },
    {
      name: 'pure-layers-touch-no-machine',
      comment: PURE,
      severity: 'error',
      from: { path: '^src/(words|trade|job|picture|cards)/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'pure-layers-know-few-packages',
      comment: `${PURE} Only calendars, schemas and word distances are let in.`,
      severity: 'error',
      from: { path: '^src/(words|trade|job)/' },
      to: { dependencyTypes: ['npm'], pathNot: 'node_modules/(@types/)?(luxon|zod|fastest-levenshtein)/' },
    },
    {
      name: 'pictures-know-few-packages',
      comment: 'A picture is laid out by us and drawn by the scene library; another canvas is a change of one file.',
      severity: 'error',
      from: { path: '^src/picture/' },
      to: { dependencyTypes: ['npm'], pathNot: 'node_modules/(@types/)?(luxon|zrender)/' },
    },
    {
      name: 'scenes-are-drawn-in-one-place',
      comment: 'The scene library stands behind an interface of our own.',
      severity: 'error',
      from: { path: '^(src/(?!picture/scene-library)|commands/)' },
      to: { path: 'node_modules/zrender/' },
    },
    {
      name: 'fonts-stay-with-the-painter',
      comment: 'What measures and what paints must use the very same font.',
      severity: 'error',
      from: { path: '^(src/(?!adapters/png/)|commands/)' },
      to: { path: 'node_modules/(@resvg|fontkit|dejavu-fonts-ttf)/' },
    },
    {
      name: 'shipped-code-needs-shipped-packages',
      comment: '`npm start` installs without the development packages.',
      severity: 'error',
      from: { path: '^(src|commands)/' },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'no-circles',
      comment: 'Two files that need each other are one idea in two places.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default', 'types'] },
  },
};
