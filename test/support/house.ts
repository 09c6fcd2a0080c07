// The house's rules as a function of its files, so that the test of them can itself be tested.
import { dirname, join } from 'node:path'

export type SourceFile = { path: string; text: string }

type Room = { name: string; holds: RegExp }

/** From the room that everybody may use to the one that may use everybody. A file imports from its own room and from those before it. */
const order: Room[] = [
  { name: 'app/statistics', holds: /^app\/statistics\// },
  { name: 'app/terms', holds: /^app\/terms\// },
  { name: 'app/kit', holds: /^app\/kit\// },
  { name: 'db', holds: /^db\// },
  { name: 'app/audit', holds: /^app\/audit\// },
  { name: 'app/people', holds: /^app\/people\// },
  { name: 'app/advisor', holds: /^app\/advisor\// },
  { name: 'app/register', holds: /^app\/register\// },
  { name: 'app/lots/rules', holds: /^app\/lots\/rules\// },
  { name: 'app/lots/record', holds: /^app\/lots\/record\// },
  { name: 'app/lots/evidence', holds: /^app\/lots\/evidence\// },
  { name: 'app/series', holds: /^app\/series\// },
  { name: 'app/lots/acts', holds: /^app\/lots\/acts\// },
  { name: 'app/lots', holds: /^app\/lots\/[\w-]+\.ts$/ },
  { name: 'app/history', holds: /^app\/history\// },
  { name: 'app/advice', holds: /^app\/advice\// },
  { name: 'app/compute', holds: /^app\/compute\// },
  { name: 'app/documents', holds: /^app\/documents\// },
  { name: 'app/desk', holds: /^app\/desk\// },
  { name: 'views', holds: /^views\// },
  { name: 'app/web', holds: /^app\/web\// },
  { name: 'app/jobs', holds: /^app\/jobs\// },
  { name: 'seed', holds: /^seed\// },
  { name: 'app', holds: /^app\/[\w-]+\.ts$/ },
  { name: 'examples', holds: /^examples\// },
  { name: 'bench', holds: /^bench\// },
  { name: 'test', holds: /^test\// },
]

/** What a page may use beside types: its own kind, the closed words and the kit. */
const forPages = ['views', 'app/terms', 'app/kit']
const LONGEST_FILE = 250
const LONGEST_FUNCTION = 40

/** Sentences about what stands against the house's rules; none where all is well. */
export function faultsOf(files: SourceFile[]): string[] {
  return [
    ...files.flatMap((file) => [...faultsInForm(file), ...faultsInCode(file), ...faultsInImports(file)]),
    ...circlesIn(files),
    ...namesWithTwoMeanings(files),
  ]
}

/** Files that import each other in a ring, imports of types alone among them: none can be read before the others. */
function circlesIn(files: SourceFile[]): string[] {
  const imported = new Map(
    files.map(({ path, text }) => [path, importsIn(text).map(({ from }) => join(dirname(path), from))]),
  )
  const open = new Set(imported.keys())
  // a file that imports nothing of what is left stands in no circle; neither does one that nothing left imports
  for (let before = -1; before !== open.size; ) {
    before = open.size
    for (const path of open) if (!imported.get(path)?.some((target) => open.has(target))) open.delete(path)
    const wanted = new Set([...open].flatMap((path) => imported.get(path) ?? []))
    for (const path of open) if (!wanted.has(path)) open.delete(path)
  }
  return open.size === 0 ? [] : [`${[...open].sort().join(', ')} import each other in a circle`]
}

function faultsInForm({ path, text }: SourceFile): string[] {
  const faults: string[] = []
  const lines = text.trimEnd().split('\n').length
  if (lines > LONGEST_FILE) faults.push(`${path} has ${lines} lines; ${LONGEST_FILE} is the most`)
  if (!/^(#!.*\n)?\/\/ \S/.test(text)) faults.push(`${path} does not begin with a line that says what it is for`)
  if (/^export default /m.test(text) && !path.endsWith('.config.ts')) faults.push(`${path} has a default export`)
  if (/(^|\/)(utils?|helpers?|common|types|services|managers\/|index)(\.tsx?|\/)/.test(path))
    faults.push(`${path} has a name that says nothing`)
  if (path !== path.toLowerCase()) faults.push(`${path} is not in small letters with dashes`)
  return faults
}

/** Rooms of the product itself; what a test or a bench says is its own affair. */
const product = /^(app|db|views|seed)\//

function faultsInCode({ path, text }: SourceFile): string[] {
  const faults = functionsIn(text)
    .filter(({ lines }) => lines > LONGEST_FUNCTION && !/^test\//.test(path))
    .map(({ name, lines }) => `${path}: ${name} has ${lines} lines; ${LONGEST_FUNCTION} is the most`)
  if (/^views\//.test(path) && path !== 'views/figures.ts' && formatting.test(text))
    faults.push(`${path} formats numbers, which views/figures.ts does`)
  if (/^app\//.test(path))
    for (const [, , said = ''] of text.matchAll(refused))
      if (!/^[a-z-]+\/[a-z0-9-]+$/.test(said)) faults.push(`${path} refuses with “${said}”, which views/words says`)
  return faults
}

/** What is refused is a code of app/terms/refusals.ts with its facts; a code that is worked out is held by its type. */
const refused = /\b(?:new Refusal\(\s*'\w+',|new Wait\(|because\()\s*(['"`])(.*?)\1/gs

const formatting = /\.(toFixed|toPrecision|toExponential|toLocale\w*String)\(|\bIntl\./

/** Functions at the outermost level of a file as the formatter leaves it: from their first line to the one before the next that is not indented, or to the brace that closes them. */
export function functionsIn(text: string): { name: string; lines: number }[] {
  const lines = text.split('\n')
  return lines.flatMap((line, first) => {
    const begun = /^(?:export )?(?:(?:async )?function\*? (\w+)|const (\w+)\b.*=>(?: [({])?$)/.exec(line)
    const name = begun?.[1] ?? begun?.[2]
    if (name === undefined) return []
    // a line such as `): Promise<Person> {` ends the parameters and not the function
    const rest = lines.slice(first + 1)
    const last = rest.findIndex((each) => /^\S/.test(each) && !/^[})\]].*\{$/.test(each))
    return [{ name, lines: last + (/^[})\]]/.test(rest[last] ?? '') ? 2 : 1) }]
  })
}

/** Exported names that two files of the product give to different things. The four names of the distributions are meant to be alike. */
function namesWithTwoMeanings(files: SourceFile[]): string[] {
  const homes = new Map<string, string[]>()
  for (const { path, text } of files.filter(({ path }) => product.test(path) && !/\/distributions\//.test(path)))
    for (const [, name = ''] of text.matchAll(/^export (?:async )?(?:const|function\*?|type|interface|class) (\w+)/gm))
      homes.set(name, [...(homes.get(name) ?? []), path])
  return [...homes]
    .filter(([, paths]) => paths.length > 1)
    .map(([name, paths]) => `${name} means something else in each of ${paths.join(', ')}`)
}

function faultsInImports({ path, text }: SourceFile): string[] {
  const room = roomOf(path)
  if (room === undefined) return [`${path} lies in no room of the house`]
  return importsIn(text).flatMap(({ from, typesOnly }) => {
    if (!from.startsWith('.')) return foreignFaults(path, from)
    if (!/\.(tsx?|mjs)$/.test(from)) return [`${path} imports ${from} without its ending`]
    const target = join(dirname(path), from)
    const other = roomOf(target)
    if (other === undefined) return [`${path} imports ${target}, which lies in no room of the house`]
    if (other > room) return [`${path} imports ${target}, from a room below its own`]
    if (order[room]?.name === 'app/lots/rules' && order[other]?.name === 'db' && !typesOnly)
      return [`${path} imports more than types of ${target}; rules are pure`]
    if (order[room]?.name === 'views' && !typesOnly && !forPages.includes(order[other]?.name ?? ''))
      return [`${path} imports more than types of ${target}`]
    return []
  })
}

/** The engine stands on itself alone: no library, and nothing of Node. */
function foreignFaults(path: string, from: string): string[] {
  return path.startsWith('app/statistics/') ? [`${path} imports ${from}; the engine imports only itself`] : []
}

function roomOf(path: string): number | undefined {
  const at = order.findIndex(({ holds }) => holds.test(path))
  return at < 0 ? undefined : at
}

/** Every import and re-export of a file; `typesOnly` where the whole statement is erased. */
export function importsIn(text: string): { from: string; typesOnly: boolean }[] {
  const statement =
    /^(?:import|export)\s+(type\s+)?(?:[\w*{][^'";]*?\s+from\s+)?['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/gm
  return [...text.matchAll(statement)].map((match) => ({
    from: match[2] ?? match[3] ?? '',
    typesOnly: match[1] !== undefined,
  }))
}
