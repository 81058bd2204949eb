import { fromPhrases } from '../phrase-book.js';

export const french = fromPhrases({
  language: 'fr',
  direction: 'ltr',
  name: 'Français',
  unchecked:
    'Ce texte n’a pas encore été relu par une personne de langue maternelle française. Si quelque chose n’est pas clair, appelez-nous.',
  devices: {
    foot: 'La semelle',
    shoe: 'La compensation de chaussure',
    boots: 'La paire de bottines avec barre',
    'ankle-foot': 'L’attelle de jambe',
    knee: 'L’attelle de genou',
    'long-leg': 'La grande attelle de jambe',
    hip: 'L’attelle de hanche',
    trunk: 'L’orthèse du dos (corset)',
    head: 'L’orthèse de la tête (casque)',
    'wrist-hand': 'L’attelle de main',
  },
  sides: { left: 'gauche', right: 'droite' },
  thirds: { early: 'début {month}', middle: 'mi-{month}', late: 'fin {month}' },
  title: 'L’attelle de {name}',
  titleUnnamed: 'L’attelle de votre enfant',
  fitsUntil: 'elle devrait aller jusqu’à {month} environ.',
  meaning:
    'C’est ce que nous pensons aujourd’hui. Nous sommes sûrs à 9 sur 10 qu’elle va encore jusqu’à {month}. Nous regardons de nouveau à chaque mesure.',
  meaningSmall: 'Nous sommes sûrs à 9 sur 10 qu’elle est trop petite à partir de {month}.',
  mayBeSmall: 'elle est peut-être déjà trop petite. Appelez-nous, s’il vous plaît.',
  longTime:
    'nous ne pensons pas qu’elle devienne bientôt trop petite. Un enfant peut grandir plus vite que prévu, alors nous la vérifions à chaque visite.',
  byWear: 'elle s’use avant de devenir trop petite. Nous la vérifions à chaque visite.',
  beingMade: 'elle est en fabrication.',
  beingMadeBy:
    'elle est en fabrication. Nous pensons la mettre en place vers le {date}. Ce n’est pas encore un rendez-vous.',
  wanted: {
    repair:
      'il faut la réparer. Appelez-nous aujourd’hui. Ne l’utilisez pas avec une pièce qui bouge ou qui coupe.',
    repairHip:
      'il faut la réparer. Appelez-nous aujourd’hui. Ne l’enlevez pas avant que nous vous le disions.',
    measure: 'nous devons mesurer votre enfant pour savoir combien de temps elle ira.',
    adjust: 'nous devons la régler un peu plus grand. Ensuite elle continue de servir.',
    'renew-part': 'il faut changer une pièce. Le reste continue de servir.',
    cast: 'il est temps de faire la suivante. En attendant votre enfant peut la porter, si la peau va bien. Sinon, appelez-nous.',
    check: 'nous voulons regarder si elle va encore.',
  },
  urgent: {
    head: 'ne la mettez pas et appelez-nous aujourd’hui. Un médecin doit d’abord voir votre enfant. S’il vomit, s’il est très endormi ou si la fontanelle est bombée, allez tout de suite à l’hôpital.',
    breathing:
      'enlevez-la et appelez-nous aujourd’hui. Si votre enfant respire toujours mal, appelez les secours tout de suite.',
    hip: 'appelez-nous aujourd’hui. Ne l’enlevez pas avant que nous vous le disions.',
    stop: 'arrêtez de la porter et appelez-nous aujourd’hui.',
  },
  noDevice: 'Nous n’avons noté aucune attelle. Appelez-nous si votre enfant en porte une.',
  guess:
    'Les enfants grandissent parfois plus vite, parfois moins vite. Une attelle peut devenir trop petite plus tôt.',
  correctedAge:
    'Votre enfant est né {n} semaines trop tôt. Nous comptons donc l’âge à partir du jour prévu pour la naissance.',
  skinTitle: 'Regardez la peau tous les jours',
  skin: {
    hip: 'Laissez l’attelle en place. Regardez autour des sangles et dans les plis de la peau à chaque change.',
    head: 'Quand le casque est enlevé pour la toilette, regardez toute la tête.',
    trunk: 'Enlevez l’orthèse. Regardez sous les bras, sur les côtes et sur les hanches.',
    hand: 'Enlevez l’attelle. Regardez toute la main et le bras.',
    leg: 'Enlevez l’attelle. Regardez tout le pied et la jambe, ou partout où elle touche.',
  },
  marks: 'Une marque rouge qui part en 20 minutes est habituelle. Une marque qui reste ne l’est pas.',
  skinInsensate:
    'Votre enfant ne sent peut-être pas la douleur à cet endroit. Regardez le matin et le soir, tous les jours. N’attendez pas que cela fasse mal.',
  signs: {
    skin: [
      'une rougeur qui reste plus de 20 minutes',
      'un gonflement, une cloque ou des boutons',
      'la peau ouverte',
    ],
    skinHip: 'une rougeur encore là au change suivant',
    unwell: 'une douleur, ou votre enfant ne veut plus la porter',
    unwellHip: 'votre enfant pleure quand on bouge sa jambe',
    swollen: 'une jambe, un pied ou un bras chaud ou gonflé (un os est peut-être cassé)',
    cold: {
      toes: 'des orteils froids, bleus ou endormis',
      toesInsensate: 'des orteils froids ou bleus',
      fingers: 'des doigts froids, bleus ou endormis',
      fingersInsensate: 'des doigts froids ou bleus',
    },
    broken: 'une fissure ou un bord qui coupe',
    titles: {
      limb: 'Arrêtez de la porter et appelez-nous aujourd’hui si vous voyez',
      head: 'Enlevez le casque et appelez-nous aujourd’hui si vous voyez',
      trunk: 'Enlevez l’orthèse et appelez-nous aujourd’hui si vous voyez',
      hip: 'Appelez-nous aujourd’hui si vous voyez ceci. Laissez l’attelle en place jusqu’à notre réponse',
    },
    more: {
      head: ['un casque qui serre, penche ou tourne'],
      trunk: [
        'votre enfant respire moins bien avec',
        'les jambes endormies ou sans force',
        'elle coupe sous les bras ou aux hanches, ou une sangle ne ferme plus',
      ],
      hip: [
        'une jambe que votre enfant ne bouge plus',
        'un pied froid, bleu ou gonflé',
        'une sangle au dernier trou, ou qui a bougé',
      ],
      hand: ['des doigts qui dépassent'],
      boots: ['des orteils qui dépassent, ou un talon qui sort', 'une barre qui bouge'],
      shoe: ['des orteils qui touchent le bout de la chaussure', 'une semelle qui se décolle'],
      knee: ['elle glisse, ou une sangle ne ferme plus'],
      leg: ['des orteils qui dépassent du bord, ou une sangle qui ne ferme plus'],
    },
  },
  emergency:
    'Allez tout de suite à l’hôpital si votre enfant vomit encore et encore, s’il est très endormi et difficile à réveiller, ou si la fontanelle est bombée.',
  emergencyTrunk:
    'Appelez les secours tout de suite si votre enfant respire toujours difficilement une fois l’orthèse enlevée.',
  doNotWait: 'N’attendez pas une date de cette page si quelque chose fait mal ou a l’air anormal.',
  doNotWaitInsensate: 'N’attendez pas une date de cette page si la peau a l’air anormale.',
  callUs: 'Appelez-nous :',
  numberOnCard: 'au numéro de votre carte de la clinique',
  visitTitle: 'Prochaine visite',
  visitBefore:
    'Nous aimerions voir votre enfant avant le {date}. Nous vous appellerons, ou vous pouvez nous appeler.',
  visitToday:
    'Nous voulons voir votre enfant aujourd’hui ou dès le prochain jour d’ouverture. Appelez-nous maintenant.',
  visitNow: 'Nous aimerions voir votre enfant bientôt. Appelez-nous cette semaine.',
  visitUsual: 'Venez à votre visite habituelle.',
  bring: 'Apportez l’attelle et les chaussures que votre enfant porte avec.',
  bringAlone: 'Apportez l’attelle ou le casque.',
  shoes:
    'Chaussures à porter avec l’attelle : cherchez la pointure EU {eu}, UK {uk} ou US {us} ({n} mm). Les pointures changent d’un magasin à l’autre : essayez-les avec l’attelle.',
  shoesNext: 'Une pointure de plus sera sans doute utile à partir de cette date : {month}.',
  chartTitle: 'Comment votre enfant a grandi',
  madeOn: 'Fait le {date}.',
  linkUntil: 'Ce lien fonctionne jusqu’au {date}.',
  otherLanguage: 'Autre langue',
  letterTo: 'Aux parents de {name}',
  letterBy: 'Appelez-nous, s’il vous plaît, pour que nous puissions voir votre enfant avant le {date}.',
  letterSoon:
    'Appelez-nous cette semaine, s’il vous plaît, pour que nous puissions voir votre enfant bientôt.',
  letterWhy: {
    repair: 'Il faut réparer l’attelle.',
    measure: 'Nous devons mesurer votre enfant pour savoir combien de temps l’attelle ira.',
    adjust: 'Il faut régler l’attelle. Ensuite elle continue de servir.',
    'renew-part': 'Il faut changer une pièce de l’attelle. Le reste continue de servir.',
    cast: 'L’attelle va devenir trop petite. Pour que la suivante soit prête à temps, nous devons prendre l’empreinte.',
    check: 'L’attelle sera peut-être bientôt trop petite. Nous voulons regarder si elle va encore.',
    review: 'Il faut regarder l’attelle et la peau.',
    none: 'C’est le moment de la visite habituelle.',
  },
  questions: {
    title: 'Deux questions de la clinique',
    hint: 'Vos réponses sont lues par la clinique. Elles ne remplacent pas un appel.',
    toes: 'Debout dans l’attelle : y a-t-il la largeur d’un doigt devant les orteils ?',
    toesAnswers: {
      finger: 'oui',
      less: 'non, moins',
      over: 'les orteils touchent ou dépassent le bord',
      unsure: 'je ne sais pas',
    },
    marks: 'Y a-t-il des marques sur la peau après avoir enlevé l’attelle ?',
    marksHip: 'Y a-t-il des marques sur la peau autour de l’attelle ? Ne l’enlevez pas pour regarder.',
    marksAnswers: {
      none: 'non',
      fades: 'oui, elles partent en 20 minutes',
      lasts: 'oui, elles restent plus longtemps',
      open: 'une cloque ou la peau ouverte',
    },
    where: 'Où ?',
    minutes: 'Combien de minutes la marque reste-t-elle ?',
    send: 'Envoyer à la clinique',
    thanks: 'Merci. La clinique a reçu vos réponses.',
    incomplete: 'Répondez aux deux questions, s’il vous plaît. Rien n’a été envoyé.',
  },
});
