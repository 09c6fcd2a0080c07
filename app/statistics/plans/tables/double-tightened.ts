// Double sampling plans for tightened inspection: two samples of n each; numbers are first sample; both samples together.
import { rowsOf, type Table } from './table.ts'

export const doubleTightened: Table = {
  title: 'Double sampling, tightened inspection',
  source:
    'MIL-STD-105E (10 May 1989), Table III-B, from memory by the diagonal rule of the table. Checked by comparison ' +
    'with the single plan of the same cell. ISO 2859-1:1999 is said to differ where the single plan accepts 3 or 8 ' +
    '(from memory)',
  read: [],
  otherwise: 'recalled',
  rows: rowsOf(`
     n  0.010 0.015 0.025   0.040   0.065   0.10    0.15    0.25      0.40       0.65       1.0        1.5        2.5        4.0        6.5        10
A    2  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓          ↓          ↓          ↓          ↓          ↓          ↓
B    2  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓          ↓          ↓          ↓          ↓          =          ↓
C    3  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓          ↓          ↓          ↓          =          ↓          ↓
D    5  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓          ↓          ↓          =          ↓          ↓          0/2;1/2
E    8  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓          ↓          =          ↓          ↓          0/2;1/2    0/3;3/4
F   13  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓          =          ↓          ↓          0/2;1/2    0/3;3/4    1/4;4/5
G   20  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          =          ↓          ↓          0/2;1/2    0/3;3/4    1/4;4/5    2/5;6/7
H   32  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         =          ↓          ↓          0/2;1/2    0/3;3/4    1/4;4/5    2/5;6/7    3/7;11/12
J   50  ↓     ↓     ↓       ↓       ↓       ↓       ↓       =         ↓          ↓          0/2;1/2    0/3;3/4    1/4;4/5    2/5;6/7    3/7;11/12  6/10;15/16
K   80  ↓     ↓     ↓       ↓       ↓       ↓       =       ↓         ↓          0/2;1/2    0/3;3/4    1/4;4/5    2/5;6/7    3/7;11/12  6/10;15/16 9/14;23/24
L  125  ↓     ↓     ↓       ↓       ↓       =       ↓       ↓         0/2;1/2    0/3;3/4    1/4;4/5    2/5;6/7    3/7;11/12  6/10;15/16 9/14;23/24 ↑
M  200  ↓     ↓     ↓       ↓       =       ↓       ↓       0/2;1/2   0/3;3/4    1/4;4/5    2/5;6/7    3/7;11/12  6/10;15/16 9/14;23/24 ↑          ↑
N  315  ↓     ↓     ↓       =       ↓       ↓       0/2;1/2 0/3;3/4   1/4;4/5    2/5;6/7    3/7;11/12  6/10;15/16 9/14;23/24 ↑          ↑          ↑
P  500  ↓     ↓     =       ↓       ↓       0/2;1/2 0/3;3/4 1/4;4/5   2/5;6/7    3/7;11/12  6/10;15/16 9/14;23/24 ↑          ↑          ↑          ↑
Q  800  ↓     =     ↓       ↓       0/2;1/2 0/3;3/4 1/4;4/5 2/5;6/7   3/7;11/12  6/10;15/16 9/14;23/24 ↑          ↑          ↑          ↑          ↑
R 1250  =     ↑     ↓       0/2;1/2 0/3;3/4 1/4;4/5 2/5;6/7 3/7;11/12 6/10;15/16 9/14;23/24 ↑          ↑          ↑          ↑          ↑          ↑
S 2000  ↑     ↑     0/2;1/2 ↑       ↑       ↑       ↑       ↑         ↑          ↑          ↑          ↑          ↑          ↑          ↑          ↑
`),
}
