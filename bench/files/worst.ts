// Results files of 15 MiB that are nothing but trouble, and good ones.

const heading = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial\n'
const size = 15 * 1024 * 1024

/** So much of a text over and over, below the heading. */
function filledWith(text: string, above = heading): Uint8Array {
  return Buffer.from(above + text.repeat(Math.floor((size - above.length) / Buffer.byteLength(text))))
}

/** Each tries to make one step of the reading slow or to make it hold much. */
export function worstFiles(): { name: string; body: Uint8Array }[] {
  return [
    { name: '2.2 million lines x,,,,,', body: filledWith('x,,,,,\n') },
    { name: '3.9 million lines x,y', body: filledWith('x,y\n') },
    { name: 'one cell of 15 MiB', body: filledWith('x') },
    { name: 'an unclosed quotation mark', body: filledWith('1,1,1,pass,pass,T\n', `${heading}1,1,1,pass,pass,"T`) },
    { name: '15 million commas in the heading', body: filledWith(',', '') },
    { name: '15 million empty lines above the heading', body: filledWith('\n', '') },
    { name: '15 million empty lines', body: filledWith('\n') },
    { name: '15 million carriage returns', body: filledWith('\r') },
    { name: 'rows of empty cells', body: filledWith(',,,,,\n') },
    { name: 'lines of 1,999 commas', body: filledWith(`${','.repeat(1999)}\n`) },
    { name: 'quoted empty cells', body: filledWith('"","","","","",""\n') },
    { name: 'quotation marks alone', body: filledWith('"'.repeat(1998).concat('\n')) },
    { name: 'characters of four bytes', body: filledWith(`${'\u{1F50C}'.repeat(300)}\n`) },
    { name: 'zero characters', body: Buffer.alloc(size) },
    { name: 'bytes that are no UTF-8', body: Buffer.concat([Buffer.from(heading), Buffer.alloc(size, 0xfe)]) },
    { name: 'UTF-16', body: Buffer.from(`\uFEFF${heading}${'x,y\n'.repeat(size / 8 - 100)}`, 'utf16le') },
    { name: 'one position over and over', body: filledWith('7,1,1,pass,pass,\n') },
    { name: 'rows with six faults', body: filledWith('x,y,z,u,v,w\n') },
    { name: '700,000 rows of which the last is bad', body: Buffer.concat([rows(1, 700_000), Buffer.from('x,y\n')]) },
    { name: 'cords that were recorded or never drawn', body: rows(1_000_001, 1_600_000) },
  ]
}

/** Rows of these positions, all of cords that conform but every hundredth. */
export function goodFile(from: number, to: number): Uint8Array {
  return rows(from, to, 'T-204', (position) => (position % 100 === 0 ? '-0.04' : '3.1'))
}

function rows(from: number, to: number, serial = '', margin: (position: number) => string = () => '2'): Uint8Array {
  const lines = [heading]
  for (let position = from; position <= to; position++)
    lines.push(`${position},${margin(position)},2.2,pass,pass,${serial}\n`)
  return Buffer.from(lines.join(''))
}
