// A file's text in short pieces with one kind of line end, and its first line that says anything.
import { ownTurn } from '../../../kit/turn.ts'

/** In characters. A row has eight cells at most, the longest of them 60 characters. */
export const longestLine = 1000

/**
 * Gives the text on in pieces of at most a line's length, each in a turn of the event loop of its own. Ends before a line
 * that is too long, and says which: nothing longer is ever held.
 */
export async function* linePieces(
  texts: AsyncIterable<string>,
  tooLong: (line: number) => void,
): AsyncGenerator<string> {
  let line = 1
  let begun = 0 // characters of the line that is not ended yet
  let afterReturn = false
  for await (const text of texts) {
    for (let from = 0; from < text.length; ) {
      const to = wholeCharacters(text, from + longestLine)
      const piece = text.slice(afterReturn && text[from] === '\n' ? from + 1 : from, to)
      afterReturn = text[to - 1] === '\r'
      from = to
      const lines = piece.replace(/\r\n?/g, '\n')
      const first = lines.indexOf('\n')
      if (begun + (first < 0 ? lines.length : first) > longestLine) return tooLong(line)
      begun = first < 0 ? begun + lines.length : lines.length - lines.lastIndexOf('\n') - 1
      line += lineEnds(lines)
      await ownTurn()
      yield lines
    }
  }
}

export type Opened = { heading: string; line: number; below: AsyncIterable<string> }

/** The first line that says anything, with its number. A line such as sep=; is for spreadsheets alone, and passed over. */
export async function openTable(pieces: AsyncGenerator<string>): Promise<Opened> {
  let text = ''
  let line = 1
  for (;;) {
    const end = text.indexOf('\n')
    const first = end < 0 ? text : text.slice(0, end)
    const further = end < 0 ? await pieces.next() : undefined
    if (further && !further.done) text += further.value
    else if (end >= 0 && saysNothing.test(first)) {
      text = text.slice(end + 1)
      line += 1
    } else return { heading: first, line, below: followed(text.slice(first.length + 1), pieces) }
  }
}

const saysNothing = /^(?:[\s,;"]*|"?sep=.?"?[\s,;]*)$/i

async function* followed(text: string, pieces: AsyncGenerator<string>): AsyncGenerator<string> {
  if (text !== '') yield text
  yield* pieces
}

/** The end of a piece, moved on by one where it would cut a character in two. */
function wholeCharacters(text: string, end: number): number {
  const last = text.charCodeAt(end - 1)
  return Math.min(text.length, last >= 0xd800 && last < 0xdc00 ? end + 1 : end)
}

function lineEnds(text: string): number {
  let ends = 0
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) ends += 1
  return ends
}
