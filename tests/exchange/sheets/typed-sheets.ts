export interface TypedSheet {
  readonly name: string;
  readonly file?: string;
  readonly encoding?: 'latin1';
  readonly text: string;
  readonly children?: readonly string[];
  readonly readings?: readonly string[];
  readonly devices?: readonly string[];
  readonly asks?: readonly string[];
  readonly refused?: readonly string[];
}

/** Invented children. What must be taken stands beside each sheet. */
export const typedSheets: readonly TypedSheet[] = [
  {
    name: 'wide English list with title, totals, no units',
    text: 'Caseload list\n\nHosp No,Surname,First name,D.O.B.,M/F,Date seen,Foot L,Foot R\nH1,Baker,Tom,14/03/2018,M,15/02/2025,17.5,17.8\nTotal,1\n',
    children: ['Tom Baker 2018-03-14 male'],
    readings: ['Tom Baker 2025-02-15 foot_length l 175', 'Tom Baker 2025-02-15 foot_length r 178'],
  },
  {
    name: 'numbers such as N1 are children, a count line is none',
    text: 'Patiëntnr;Geboortedatum;Geslacht;Datum;Voetlengte links (mm);Lengte (cm)\nN1;11-03-2019;V;04-02-2026;178;118\nN2;23-12-2016;M;09-09-2026;212;141\nn = 2;;;;;\n',
    children: ['N1 2019-03-11 female', 'N2 2016-12-23 male'],
    readings: [
      'N1 2026-02-04 foot_length l 178',
      'N1 2026-02-04 stature 1180',
      'N2 2026-09-09 foot_length l 212',
      'N2 2026-09-09 stature 1410',
    ],
  },
  {
    name: 'Graz: semicolons, decimal commas, Windows text',
    encoding: 'latin1',
    text: 'Pat.-Nr.;Name;Geb.-Datum;Geschlecht;Datum;Fußlänge li;Fußlänge re;Größe\n7;Lena Huber;03.04.2017;w;12.05.2025;18,4;18,6;121,5\n',
    children: ['Lena Huber 2017-04-03 female'],
    readings: [
      'Lena Huber 2025-05-12 foot_length l 184',
      'Lena Huber 2025-05-12 foot_length r 186',
      'Lena Huber 2025-05-12 stature 1215',
    ],
  },
  {
    name: 'Lyon: mm, G and D',
    text: 'N° dossier;Nom;Prénom;DDN;Sexe;Date consultation;Longueur pied G;Longueur pied D;Tour de mollet G\n12;Martin;Zoé;01/02/2016;F;20/03/2025;192;195;251\n',
    children: ['Zoé Martin 2016-02-01 female'],
    readings: [
      'Zoé Martin 2025-03-20 foot_length l 192',
      'Zoé Martin 2025-03-20 foot_length r 195',
      'Zoé Martin 2025-03-20 calf_girth l 251',
    ],
  },
  {
    name: 'Utrecht: m/v with two-line heading',
    text: 'Patiëntnr;Naam;Geboortedatum;Geslacht;Datum meting;Voetlengte;;Kuitomtrek;\n;;;;;L;R;L;R\n5;Sam Visser;09-11-2018;m;17-01-2025;16,2;16,4;21,5;22\n6;Noor Bos;21-07-2016;v;17-01-2025;18,9;19;25;25,1\n',
    children: ['Sam Visser 2018-11-09 male', 'Noor Bos 2016-07-21 female'],
    readings: [
      'Sam Visser 2025-01-17 foot_length l 162',
      'Sam Visser 2025-01-17 foot_length r 164',
      'Sam Visser 2025-01-17 calf_girth l 215',
      'Sam Visser 2025-01-17 calf_girth r 220',
      'Noor Bos 2025-01-17 foot_length l 189',
      'Noor Bos 2025-01-17 foot_length r 190',
      'Noor Bos 2025-01-17 calf_girth l 250',
      'Noor Bos 2025-01-17 calf_girth r 251',
    ],
  },
  {
    name: 'Turin: sx and dx',
    text: 'Cognome;Nome;Data di nascita;Sesso;Data visita;Lungh. piede sx;Lungh. piede dx;Altezza\nRossi;Gaia;15/08/2017;F;03/02/2025;17,9;18,1;119\n',
    children: ['Gaia Rossi 2017-08-15 female'],
    readings: [
      'Gaia Rossi 2025-02-03 foot_length l 179',
      'Gaia Rossi 2025-02-03 foot_length r 181',
      'Gaia Rossi 2025-02-03 stature 1190',
    ],
  },
  {
    name: 'Valencia: V/M, where M is a girl',
    text: 'NHC;Nombre y apellidos;Fecha nacimiento;Sexo;Fecha visita;Longitud pie izq;Longitud pie dcho\n1;Leo Gil;14/05/2018;V;20/01/2025;16,9;17\n2;Ana Sanz;02/09/2016;M;20/01/2025;19;19,2\n',
    children: ['Leo Gil 2018-05-14 male', 'Ana Sanz 2016-09-02 female'],
    readings: [
      'Leo Gil 2025-01-20 foot_length l 169',
      'Leo Gil 2025-01-20 foot_length r 170',
      'Ana Sanz 2025-01-20 foot_length l 190',
      'Ana Sanz 2025-01-20 foot_length r 192',
    ],
  },
  {
    name: 'Ohio: inches, month first',
    text: 'MRN,Patient Name,DOB,Sex,Visit Date,Foot Length L (in),Foot Length R (in),Height\n88,"Reed, Ava",03/25/2017,F,10/14/2024,7 1/4,7.25,4\'1"\n',
    children: ['Ava Reed 2017-03-25 female'],
    readings: [
      'Ava Reed 2024-10-14 foot_length l 184.15',
      'Ava Reed 2024-10-14 foot_length r 184.15',
      'Ava Reed 2024-10-14 stature 1244.6',
    ],
  },
  {
    name: 'flat: child, visit and device repeated, an AFO asked once',
    text: 'ID,DOB,Sex,Seen,Foot L,Device,Side,Cast date\n1,14/03/2018,f,15/02/2025,17.5,hinged AFO,L,10/01/2025\n1,14/03/2018,f,20/06/2025,17.9,hinged AFO,L,10/01/2025\n',
    children: ['1 2018-03-14 female'],
    readings: ['1 2025-02-15 foot_length l 175', '1 2025-06-20 foot_length l 179'],
    devices: ['1 articulated-afo left 2025-01-10'],
  },
  {
    name: 'several devices in a cell',
    text: 'Name,Date of birth,Orthoses,Cast\nTom B,14/03/2018,L solid AFO + R insole,15/01/2025\nAmy S,02/07/2016,bilat SMOs,16/01/2025\nJo K,02/07/2014,TLSO,17/01/2025\n',
    devices: [
      'Tom B solid-afo left 2025-01-15',
      'Tom B foot-orthosis right 2025-01-15',
      'Amy S supramalleolar-orthosis left 2025-01-16',
      'Amy S supramalleolar-orthosis right 2025-01-16',
      'Jo K spinal-orthosis none 2025-01-17',
    ],
  },
  {
    name: 'doubt, did not attend, dashes',
    text: 'Name,DOB,Date,Foot length L mm,Foot length R mm\nTom B,14/03/2018,15/01/2025,~168,168/169\nTom B,14/03/2018,15/06/2025,DNA,-\nTom B,14/03/2018,16/06/2025,172?,n/a\n',
    readings: [
      'Tom B 2025-01-15 foot_length l 168',
      'Tom B 2025-01-15 foot_length r 168.5',
      'Tom B 2025-06-16 foot_length l 172',
    ],
  },
  {
    name: 'ages with a birth date instead of dates',
    text: 'Name,DOB,Age at visit,Foot L,Foot R\nTom B,14/03/2018,6y 6m,17.5,17.6\n',
    readings: ['Tom B 2024-09-12 foot_length l 175', 'Tom B 2024-09-12 foot_length r 176'],
  },
  {
    name: 'one order of ambiguous dates is asked where nothing says it',
    text: 'Name,DOB,Date,Foot L\nTom B,2018-03-14,03/04/2025,17.5\n',
    readings: [],
    asks: ['dates:date'],
    refused: ['2 Date'],
  },
  {
    name: 'both sides in one cell by the heading, right first',
    text: 'Name,DOB,Date,Foot length (R/L) mm\nTom B,14/03/2018,15/01/2025,172/168\n',
    readings: ['Tom B 2025-01-15 foot_length r 172', 'Tom B 2025-01-15 foot_length l 168'],
  },
  {
    name: 'a merged heading over two columns loses no side',
    text: 'Name,DOB,Date,Foot length L/R (mm),\nTom B,14/03/2018,15/01/2025,172,168\n',
    readings: ['Tom B 2025-01-15 foot_length l 172', 'Tom B 2025-01-15 foot_length r 168'],
  },
];
