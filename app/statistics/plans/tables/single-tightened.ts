// Single sampling plans for tightened inspection: n, then acceptance/rejection number under each acceptance quality limit.
import { rowsOf, type Table } from './table.ts'

export const singleTightened: Table = {
  title: 'Single sampling, tightened inspection',
  source:
    'MIL-STD-105E (10 May 1989), Table II-B. Read: the position of every cell for letters A to K at 0.65 to 10. ' +
    'The other positions are from memory, by the diagonal rule of the table',
  read: [{ letters: ['A', 'K'], limits: ['0.65', '10'] }],
  otherwise: 'recalled',
  rows: rowsOf(`
     n  0.010 0.015 0.025 0.040 0.065 0.10 0.15 0.25 0.40  0.65  1.0   1.5   2.5   4.0   6.5   10
A    2  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓     ↓     ↓     ↓     ↓     ↓     ↓     ↓
B    3  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓     ↓     ↓     ↓     ↓     ↓     0/1   ↓
C    5  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓     ↓     ↓     ↓     ↓     0/1   ↓     ↓
D    8  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓     ↓     ↓     ↓     0/1   ↓     ↓     1/2
E   13  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓     ↓     ↓     0/1   ↓     ↓     1/2   2/3
F   20  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓     ↓     0/1   ↓     ↓     1/2   2/3   3/4
G   32  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓     0/1   ↓     ↓     1/2   2/3   3/4   5/6
H   50  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    0/1   ↓     ↓     1/2   2/3   3/4   5/6   8/9
J   80  ↓     ↓     ↓     ↓     ↓     ↓    ↓    0/1  ↓     ↓     1/2   2/3   3/4   5/6   8/9   12/13
K  125  ↓     ↓     ↓     ↓     ↓     ↓    0/1  ↓    ↓     1/2   2/3   3/4   5/6   8/9   12/13 18/19
L  200  ↓     ↓     ↓     ↓     ↓     0/1  ↓    ↓    1/2   2/3   3/4   5/6   8/9   12/13 18/19 ↑
M  315  ↓     ↓     ↓     ↓     0/1   ↓    ↓    1/2  2/3   3/4   5/6   8/9   12/13 18/19 ↑     ↑
N  500  ↓     ↓     ↓     0/1   ↓     ↓    1/2  2/3  3/4   5/6   8/9   12/13 18/19 ↑     ↑     ↑
P  800  ↓     ↓     0/1   ↓     ↓     1/2  2/3  3/4  5/6   8/9   12/13 18/19 ↑     ↑     ↑     ↑
Q 1250  ↓     0/1   ↓     ↓     1/2   2/3  3/4  5/6  8/9   12/13 18/19 ↑     ↑     ↑     ↑     ↑
R 2000  0/1   ↑     ↓     1/2   2/3   3/4  5/6  8/9  12/13 18/19 ↑     ↑     ↑     ↑     ↑     ↑
S 3150  ↑     ↑     1/2   ↑     ↑     ↑    ↑    ↑    ↑     ↑     ↑     ↑     ↑     ↑     ↑     ↑
`),
}
