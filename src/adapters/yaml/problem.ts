/** One thing that is wrong with a configuration file, and what would be right. */
export interface Problem {
  /** The file's name, or the folder's where a folder is wrong. */
  readonly file: string;
  /** Counted from 1; 0 where no line is to blame, because the file itself is. */
  readonly line: number;
  /** Such as `materials[2].ratio.weight`; empty where the whole file is meant. */
  readonly path: string;
  /** What was expected and what was got. */
  readonly message: string;
  /** Something that would have been right there. */
  readonly example: string;
}

/** One line for a person: `materials.yaml:12 materials[0].potLife: expected a duration, got "soon"; for example: 18 min`. */
export function problemText({ file, line, path, message, example }: Problem): string {
  const where = `${file}${line > 0 ? `:${line}` : ''}${path && ` ${path}`}`;
  return `${where}: ${message}${example && `; for example: ${example}`}`;
}

export type Path = readonly PropertyKey[];

/** `materials[2].ratio.weight`; a key that is no plain word stands in brackets and quotes. */
export const pathText = (path: Path): string =>
  path
    .map((key, index) => {
      if (typeof key === 'number') return `[${key}]`;
      return /^[\w-]*$/.test(String(key)) ? `${index > 0 ? '.' : ''}${String(key)}` : `[${JSON.stringify(String(key))}]`;
    })
    .join('');
