import type { Vocabulary } from '../vocabulary.js';

export const fr: Vocabulary = {
  fields: {
    'child.id':
      'nir|nda|iep|matricule|n dossier|no dossier|num dossier|numero dossier|numero de dossier|n de dossier|dossier|ipp|n patient|no patient|num patient|identifiant|ident|n ipp|nip|code patient|numero patient|ref patient|n client|reference|n id|matricule|id patient|n° ipp',
    'child.name':
      'nom prenom|nom et prenom|prenom nom|nom complet|nom de l enfant|nom enfant|nom patient|nom du patient|noms|prenom et nom|initiales',
    'child.first_name': 'prenom|prenoms',
    'child.last_name': 'nom de famille|nom usuel|nom de naissance|nom famille',
    'child.birth_date':
      'naissance|date naissance|date de naissance|ddn|ne le|nee le|ne e le|dn|d naissance|dnaiss|date naiss|naiss|ne|d de naissance|ddnaiss|dt naissance|date de naiss|annee de naissance|annee naissance|an naissance',
    'child.sex': 'sexe|genre|g f|f g|m f|f m|h f|garçon fille|fille garçon|s',
    'child.gestation_weeks':
      'sa|terme|terme sa|semaines d amenorrhee|age gestationnel|ag|naissance sa|prematurite sa|terme naissance',
    'child.conditions':
      'diagnostic|diagnostics|pathologie|pathologies|maladie|affection|diag|dg|indication|handicap|motif|patho',
    'child.affected_side': 'cote atteint|cote affecte|cote lese|lateralite atteinte|atteinte',
    'child.insensate_skin':
      'sensibilite|insensible|perte de sensibilite|anesthesie|peau insensible|trouble sensitif|troubles sensitifs',
    'child.latex_alert': 'latex|allergie latex|allergie au latex',
    'child.palliative': 'palliatif|soins palliatifs',
    'child.walks': 'marche|marchant|ambulant|deambulation|marcheur',
    'child.sibling_group': 'fratrie|frere soeur|jumeau|freres et soeurs|jumelle',
    'child.transport_days': 'jours transport|transport|jours de transport|vsl',
    'child.prefers_holidays': 'vacances|vacances scolaires',
    'child.clinician':
      'orthoprothesiste|medecin|praticien|podo orthesiste|soignant|orthesiste|prescripteur|suivi par|vu par|referent|mpr|kine',
    'child.contact':
      'contact|telephone|tel|portable|parents|mere|tel parents|coordonnees|numero de telephone|n tel|maman|tel maman|telephone parents|mail|responsable legal',
    'child.language': 'langue|langue parlee|langue maternelle',
    'child.status': 'statut|statut patient|statut enfant|actif|file active',
    'visit.date':
      'visite|date visite|consultation|date consultation|rdv|date rdv|vu le|vue le|controle|mesure le|date mesure|date de mesure|date de visite|date de consultation|date consult|derniere visite|dernier rdv|dernier controle|examen|date examen|date des mesures|date du rdv|seance|consult|date mesures|derniere consultation|prise de mesures|date de controle|mesures du',
    'visit.age':
      'age a la visite|age a la mesure|age lors de la visite|age visite|age mesure|age au controle|age a la consultation|age au rdv',
    'visit.method': 'methode|instrument|outil|mode de mesure',
    'visit.observer': 'mesure par|observateur|examinateur|pris par',
    'long.measure': 'mesure|type de mesure|parametre|mensuration|grandeur|dimension',
    'long.value': 'valeur|resultat|mesure valeur|valeur mesuree',
    'long.unit': 'unite|unites',
    side: 'cote|lateralite|g d|d g|gauche droite|droite gauche|jambe',
    'device.id': 'n appareil|numero appareil|n commande|bon de commande|n serie|numero de serie|n os',
    'device.family':
      'appareil|appareils|orthese|ortheses|appareillage|attelle|attelles|type orthese|type d orthese|dispositif|prescription|type d appareil|type appareil|appareillages|grand appareillage|materiel|type appareillage|type d appareillage|corset|equipement|traitement|orthese prescrite|traitement orthopedique|appareil prescrit|appareillage prescrit',
    'device.cast_date':
      'moulage|date moulage|date de moulage|platre|empreinte|date empreinte|scan|date scan|prise d empreinte|moule le|date platre|prise de moulage|date d empreinte|date de prise d empreinte|empreinte le|scanne le|moulage le|numerisation',
    'device.fitted_date':
      'livraison|livre|livre le|date livraison|date de livraison|pose|mise en place|remis le|date remise|delivre|delivre le|date de pose|delivrance|date delivrance|remise|date de delivrance|livree le|porte depuis|appareille le|mise en service|depuis|porte depuis le|remis|remise le|fourni le|fournie le|delivree le|pose le|posee le|des le',
    'device.end_date':
      'fin|date fin|date de fin|arret|date arret|date d arret|arrete le|porte jusqu au|jusqu au|retire le|retiree le|remplace le|remplacee le|fin de port|fin d utilisation|hors service|mis au rebut le',
    'device.end_reason':
      'motif fin|motif de fin|raison fin|raison de fin|motif arret|motif d arret|raison arret|raison de l arret|motif remplacement|motif de remplacement|raison remplacement|raison du remplacement|raison|cause fin|motif',
    'device.status': 'statut|etat|statut appareil|etat appareil|statut orthese|en service|etat orthese',
    'device.footplate': 'semelle|plaque plantaire|longueur semelle',
    'device.verdict':
      'ajustement|adaptation|tolerance|chaussant|adaptation de l appareil|essayage|etat d adaptation|va bien|convient|adapte|confort',
    'shoe.size': 'pointure|chaussure|chaussures|taille chaussure|pointure chaussures|pointure eu|pointures',
    'marker.menarche': 'menarche|premieres regles|date premieres regles|regles|puberte regles',
    'marker.pelvis_stage': 'risser|stade risser|stade de risser|test de risser',
    'marker.hand_stage': 'sanders|stade sanders|stade de sanders',
    'marker.bone_age': 'age osseux|ao',
  },
  kept: 'heures|heures jour|heures par jour|h jour|temps de port|port|percentile|n|ligne|prochain rdv|prochaine visite|prochain controle|prochaine consultation|a revoir|revoir le|a revoir le|adresse|ville|code postal|cp|ecole|gmfcs|niveau gmfcs|mutuelle|securite sociale|prise en charge|medecin traitant|imc|suite|action|prochain|entente prealable|devis|renouvellement|renouvellement prevu|centre|etablissement|chirurgie|toxine|cobb|angle|angle de cobb|botox|tel medecin|n dossier papier|ordre|envergure',
  remarks: 'remarque|remarques|notes|note|commentaire|commentaires|observations|observation|divers|constat',
  skin: 'peau|etat de la peau|rougeurs|marques',
  parts: {
    foot: 'pied|pieds|plante',
    heel: 'talon',
    ankle: 'cheville|malleole|malleoles|chevilles|malleolaire|sus malleolaire|bimalleolaire',
    calf: 'mollet|mollets',
    knee: 'genou|interligne|genoux|interligne genou|interligne articulaire',
    fibula: 'tete fibula|tete perone|tete du perone|tete de la fibula|fibula|perone|tete de fibula',
    thigh: 'cuisse|cuisses',
    hip: 'hanche|hanches',
    trochanter: 'trochanter|grand trochanter',
    asis: 'eias|epine iliaque',
    leg: 'jambe|jambes|membre inferieur|mi|membres inferieurs|mb inf',
    trunk: 'tronc|buste',
    pelvis: 'bassin',
    waist: 'taille tour|ceinture|abdomen|ventre',
    chest: 'thorax|poitrine|thoracique',
    axilla: 'aisselle|axillaire|aisselles',
    head: 'tete|crane|cranien|cranienne',
  },
  dimensions: {
    length: 'longueur|long|lg|longr|lgr|long r',
    breadth: 'largeur|larg|lar|largr|diametre',
    height: 'hauteur|haut|ht|htr|h',
    girth: 'tour|perimetre|circonference|circ|tr|perim|tour de|pourtour|contour|p',
    diagonal: 'diagonale|diag|oblique',
  },
  measures: {
    foot_length: 'longueur pied|longueur du pied|lg pied|long pied|pied|taille du pied|longueur de pied',
    foot_breadth:
      'largeur pied|largeur du pied|largeur avant pied|metatarses|larg metatarses|largeur metatarses|avant pied|largeur metatarsienne',
    heel_breadth: 'largeur talon',
    malleolar_breadth: 'largeur malleolaire|largeur cheville|bimalleolaire',
    ankle_height: 'hauteur malleole|hauteur cheville|hauteur malleolaire',
    ankle_girth: 'tour de cheville|tour cheville|perimetre cheville|cheville|sus malleolaire',
    calf_girth: 'tour de mollet|tour mollet|perimetre mollet|mollet|circonference mollet',
    knee_height: 'hauteur genou|hauteur interligne|sol genou|sol interligne|hauteur du genou|interligne sol',
    fibular_head_height: 'hauteur tete fibula|hauteur tete perone|sol tete fibula|sol tete du perone',
    hip_height: 'hauteur trochanter|hauteur hanche|sol trochanter',
    asis_height: 'hauteur eias|sol eias',
    leg_length: 'longueur subischiatique|entrejambe|entre jambe|longueur entrejambe',
    asis_malleolus_length:
      'longueur membre inferieur|longueur jambe|longueur des jambes|longueur mi|eias malleole|longueur de jambe|longueur du membre inferieur',
    sitting_height:
      'taille assise|taille assis|hauteur assise|hauteur tronc|ta|taille position assise|taille ass',
    stature:
      'taille|taille debout|taille totale|stature|hauteur|hauteur debout|taille corps|longueur corps|taille couche|longueur couchee',
    thigh_girth: 'tour de cuisse|tour cuisse|perimetre cuisse|cuisse',
    hip_girth: 'tour de hanches|tour hanches|tour de hanche|tour de bassin|tour bassin|perimetre bassin',
    waist_girth: 'tour de taille|tour taille|perimetre abdominal|perimetre taille',
    chest_girth: 'tour de poitrine|tour thorax|perimetre thoracique|tour de thorax|tour poitrine',
    axillary_girth: 'tour axillaire|perimetre axillaire|tour sous aisselles|sous aisselles',
    pelvic_breadth: 'largeur bassin|largeur du bassin|inter eias|biiliaque|largeur bi iliaque',
    head_circumference: 'perimetre cranien|pc|tour de tete|tour tete|circonference crane',
    head_breadth: 'largeur tete|largeur crane|largeur cranienne',
    head_length: 'longueur tete|longueur crane|longueur cranienne',
    head_diagonal: 'diagonale|diagonale crane|diagonale cranienne|diagonale tete',
    weight: 'poids|pds|masse|poids corps',
  },
  left: 'gauche|g|gche|gch|ga|gau|gauches|cote gauche',
  right: 'droite|droit|d|dte|dt|dr|dro|drt|droits|droites|cote droit',
  both: 'deux|les deux|bilateral|bilaterale|bilateraux|bilat|g d|d g|gauche droite|droite gauche|gauche et droite|droite et gauche|droit et gauche|2|paire|deux cotes|g et d|d et g|bilaterales|x2|bil|les 2|1 paire|2 cotes|des deux cotes',
  person: 'bébé|nourrisson|enfant|patient|patiente|élève',
  name: 'nom|noms',
  number: 'n|no|num|numero|id|code',
  date: 'date|le|jour|du',
  age: 'age',
  ageMonths: 'mois',
  ageWeeks: 'semaines|semaine|sem',
  today: 'actuel|aujourd hui|age actuel|actuelle',
  otherTime:
    'precedent|precedente|avant|ancien|ancienne|initial|initiale|debut|depart|prevu|prevue|cible|attendu|attendue|difference|croissance|gain',
  noise:
    'nouveau|nouvelle|nouv|lors|pour|de|du|des|la|le|les|au|a|aux|en|et|un|dernier|derniere|derniers|actuel|actuelle|valeur|oui non|o n|ans|jj mm aaaa|jj mm aa|pieds nus|debout|en charge|charge|max|maximum|mesure|sur|par|tous|jusqu|sol|niveau|plus|cote|ans mois|sous|sans|decharge',
  female: 'f|fille|feminin|femme|fem|fe|feminine',
  male: 'm|g|garçon|masculin|h|homme|masc|gar|garcon',
  yes: 'oui|o|vrai|x|positif|connue|allergie|+|allergique|presente',
  no: 'non|n|faux|negatif|aucune|aucun|normale|normal|intacte|conservee|ras|neant|pas d allergie|rien',
  nothing:
    'nd|non mesure|n a|na|absent|non fait|nf|pas mesure|inconnu|impossible|refus|non venu|annule|n c|nc|non realise|ne|non communique|n r|nr|non vu|pas venu|absente|excuse|non mesurable|non pris|pas fait|neant|aucune|manquant|abs|np|n p|pas la|hospitalise|malade',
  ditto: 'idem|comme ci dessus|voir ci dessus|meme',
  unchanged: 'comme avant|inchange|sans changement|identique|le meme|la meme|memes',
  doubt:
    'env|environ|vers|approx|avec chaussures|chausse|estime|estimation|incertain|bouge|a revoir|avec chaussure|en chaussures|a verifier|agite|couche|en decharge|a peu pres|pleure|dit la mere',
  months:
    'janvier janv jan|fevrier fevr fev|mars mar|avril avr|mai|juin|juillet juil|aout aou|septembre sept sep|octobre oct|novembre nov|decembre dec',
  totals: 'total|somme|moyenne|nombre|effectif|totaux|moy|mediane|nb|sous total',
  verdicts: {
    loose: 'large|grand|trop grand|trop large|lache',
    good: 'bon|bien|ok|bonne|correct|parfait|adapte|satisfaisant|va bien|ras|tb|adaptee|tres bien|bien adapte|bonne adaptation|b',
    tight:
      'juste|serre|un peu juste|un peu serre|limite|bientot trop petit|devient petit|un peu petit|commence a serrer|devient juste',
    outgrown:
      'trop petit|trop petite|petit|trop court|trop serre|ne va plus|a refaire|plus adapte|depasse|trop courte|inadapte|a changer|trop juste',
  },
  endReasons: {
    outgrown:
      'trop petit|trop petite|trop court|trop courte|petit|petite|court|courte|croissance|grandi|trop serre|trop serree|ne va plus',
    'worn-out': 'use|usee|usure|usage|vieux|vieille',
    broken: 'casse|cassee|cassure|fissure|fissuree|fendu|fendue|abime|abimee|rompu',
    lost: 'perdu|perdue|perte|vole|volee',
    'function-changed':
      'changement de fonction|nouvelle prescription|changement de prescription|changement d appareil|changement d objectif|evolution',
    surgery: 'chirurgie|operation|opere|operee|post op',
    'tone-or-contracture': 'tonus|spasticite|contracture|retraction|retractions|raideur',
    skin: 'peau|escarre|rougeur|rougeurs|ampoule|blessure|plaie|lesion cutanee',
    transferred: 'demenagement|demenage|transfert|transfere|transferee|adulte',
    'no-longer-wanted':
      'plus necessaire|pas necessaire|fin de traitement|fin du traitement|traitement termine|non porte|non portee|refus|refuse|refusee|non tolere|non toleree|plus utile',
  },
  deviceStates: {
    ordered:
      'commande|en cours|en fabrication|commandee|en attente|a livrer|en attente de livraison|prescrit|moule|demande',
    worn: 'porte|portee|en service|actuel|livre|utilise|actif|livree|en place|porte actuellement|en cours de port|delivre',
    retired:
      'ancien|retire|abandonne|trop petit|termine|remplace|plus porte|hors service|reforme|arrete|perdu|casse|non porte|rebute|ancienne',
  },
  childStates: {
    active: 'actif|active|suivi|en cours|suivie|en suivi',
    'moved-away': 'demenage|parti|transfere|a demenage|autre centre|demenagement',
    discharged: 'sorti|fin de suivi|termine|inactif|clos|sortie|cloture|archive',
    died: 'decede|decedee|dcd|mort|deces',
  },
};
