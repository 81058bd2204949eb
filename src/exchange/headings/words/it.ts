import type { Vocabulary } from '../vocabulary.js';

export const it: Vocabulary = {
  fields: {
    'child.id':
      'cf|codice fiscale|tessera|n pratica|pratica|n cartella|no cartella|num cartella|numero cartella|cartella|cartella clinica|n cartella clinica|n paziente|id paziente|codice|codice paziente|cod paziente|numero paziente|cod|nosografico|n pratica|pratica|n scheda|scheda|cod paz|n paz|id paz|codice fiscale|cf|rif|num paziente',
    'child.name':
      'nome e cognome|cognome e nome|cognome nome|nome cognome|nome completo|nominativo|nome del bambino|nome bambino|nome paziente|nome del paziente|iniziali',
    'child.first_name': 'nome di battesimo',
    'child.last_name': 'cognome',
    'child.birth_date':
      'nascita|data nascita|data di nascita|nato il|nata il|nato|ddn|d nascita|data nasc|nato a il|dn|nasc|d di nascita|nata|dt nascita|data di nasc|anno di nascita|anno nascita|anno nasc',
    'child.sex': 'sesso|genere|m f|f m|maschio femmina|femmina maschio',
    'child.gestation_weeks':
      'settimane gestazione|settimane di gestazione|eg|eta gestazionale|gestazione|sg|sett gest|settimane alla nascita',
    'child.conditions':
      'diagnosi|patologia|patologie|malattia|diag|indicazione|quadro clinico|dx|diagnosi principale',
    'child.affected_side': 'lato colpito|lato affetto|lato interessato|lato leso',
    'child.insensate_skin':
      'sensibilita|insensibile|perdita di sensibilita|cute insensibile|anestesia cutanea|deficit sensibilita',
    'child.latex_alert': 'lattice|latex|allergia lattice|allergia al lattice',
    'child.palliative': 'palliativo|cure palliative',
    'child.walks': 'cammina|deambula|deambulante|deambulazione|cammino',
    'child.sibling_group': 'fratelli|fratello sorella|gemello|gemelli|gemella|fratello',
    'child.transport_days': 'giorni trasporto|trasporto',
    'child.prefers_holidays': 'vacanze|vacanze scolastiche',
    'child.clinician':
      'tecnico ortopedico|tecnico|medico|ortopedico|terapista|visto da|operatore|fisiatra|specialista|referente',
    'child.contact':
      'contatto|telefono|tel|cellulare|genitori|madre|cell|recapito|tel genitori|tel madre|numero di telefono|mamma|tel mamma|recapito telefonico|cell madre|genitore',
    'child.language': 'lingua|lingua madre',
    'child.status': 'stato|stato paziente|attivo',
    'visit.date':
      'visita|data visita|controllo|data controllo|appuntamento|visto il|misurato|misurato il|data misura|data misurazione|misurazione|ultima visita|ultimo controllo|data di misura|data rilevazione|rilevazione|valutazione|data valutazione|data appuntamento|data di misurazione|rilevato il|seduta|data misure|misure del|data rilievo|rilievo misure|data della visita|data del controllo',
    'visit.age':
      'eta alla visita|eta visita|eta alla misura|eta al controllo|eta misurazione|eta alla misurazione',
    'visit.method': 'metodo|strumento|metodo di misura',
    'visit.observer': 'misurato da|osservatore|esaminatore|sigla|rilevato da',
    'long.measure': 'misura|parametro|grandezza|tipo misura|tipo di misura|cosa|dimensione|tipologia misura',
    'long.value': 'valore|risultato|lettura|valore misurato',
    'long.unit': 'unita|unita di misura|um|u m',
    side: 'lato|lateralita|sx dx|dx sx|destra sinistra|sinistra destra|arto|d s|s d',
    'device.id': 'n ordine|ordine|n commessa|commessa|n ortesi|matricola',
    'device.family':
      'ortesi|tutore|tutori|ausilio|ausili|dispositivo|apparecchio|busto|tipo ortesi|tipo di ortesi|prescrizione|tipo tutore|presidio|plantare o ortesi|corsetto|doccia|prodotto|tipo di tutore|tipo ausilio|dispositivo prescritto|tipologia|trattamento|ortesi prescritta|ausilio prescritto|tipo di ausilio|tipo di dispositivo',
    'device.cast_date':
      'calco|data calco|gesso|data gesso|scansione|data scansione|impronta|presa calco|calco del|data impronta|presa impronta|rilievo calco|scan|calco gessato|data presa calco|data del calco|presa misure|data di calco|scansionato',
    'device.fitted_date':
      'consegna|data consegna|consegnato|consegnato il|data di consegna|collaudo|applicazione|data applicazione|data collaudo|consegnata|consegnata il|fornitura|data fornitura|indossato dal|in uso dal|dal|porta dal|in uso da|indossa dal|fornito|fornito il|applicato|applicato il|da',
    'device.end_date':
      'fine|data fine|fine uso|data fine uso|dismesso|dismessa|dismesso il|dismessa il|data dismissione|dismissione|sostituito il|sostituita il|portato fino al|fino al|fino a|in uso fino al|ritirato|ritirato il|fuori uso|sospeso il',
    'device.end_reason':
      'motivo fine|motivo della fine|motivo dismissione|motivo di dismissione|motivo sostituzione|motivo di sostituzione|motivo cambio|motivo ritiro|causa fine|causa dismissione|perche|motivo',
    'device.status': 'stato|stato ortesi|stato tutore|in uso|stato dispositivo',
    'device.footplate': 'suola|piastra|soletta',
    'device.verdict':
      'vestibilita|calzata|adattamento|come calza|va bene|fit|tolleranza|calza|aderenza|giudizio|adeguatezza',
    'shoe.size':
      'scarpa|scarpe|numero scarpa|numero di scarpe|misura scarpa|n scarpa|n scarpe|numero scarpe|numero di scarpa|taglia scarpa',
    'marker.menarche': 'menarca|prime mestruazioni|primo ciclo|prima mestruazione',
    'marker.pelvis_stage': 'risser|stadio risser|stadio di risser',
    'marker.hand_stage': 'sanders|stadio sanders',
    'marker.bone_age': 'eta ossea|eo',
  },
  kept: 'ore|ore giorno|ore al giorno|ore di uso|centile|percentile|n|riga|n progr|progressivo|prossima visita|prossimo controllo|prossimo appuntamento|rivedere il|indirizzo|citta|cap|scuola|gmfcs|livello gmfcs|asl|esenzione|pediatra|medico curante|rinnovo|data rinnovo|comune|residenza|provenienza|bmi|imc|autorizzazione|preventivo|chirurgia|tossina|botulino|prossima|cobb|angolo|angolo di cobb|curva|apertura braccia|apertura delle braccia',
  remarks: 'note|nota|osservazioni|commento|commenti|annotazioni|varie|rilievi',
  skin: 'pelle|cute|stato della cute|arrossamenti|rossori',
  parts: {
    foot: 'piede|piedi|pianta',
    heel: 'tallone|calcagno',
    ankle: 'caviglia|malleolo|malleoli|caviglie|malleolare|bimalleolare|sovramalleolare',
    calf: 'polpaccio|polpacci',
    knee: 'ginocchio|interlinea|ginocchia|emirima',
    fibula: 'testa perone|testa del perone|perone|testa fibula|testa di perone|fibula|testa della fibula',
    thigh: 'coscia|cosce',
    hip: 'anca|anche|fianco|fianchi',
    trochanter: 'trocantere|gran trocantere',
    asis: 'sias|spina iliaca',
    leg: 'gamba|gambe|arto inferiore|arti inferiori|aaii',
    trunk: 'tronco|busto altezza',
    pelvis: 'bacino|pelvi',
    waist: 'vita|addome|addominale',
    chest: 'torace|petto|toracica',
    axilla: 'ascella|ascellare|ascelle',
    head: 'testa|cranio|cranica|cranico|capo',
  },
  dimensions: {
    length: 'lunghezza|lungh|lung|lun|lungo|lng',
    breadth: 'larghezza|largh|larg|lar|diametro',
    height: 'altezza|alt|h|alto',
    girth: 'circonferenza|circ|crf|cfr|giro|perimetro|c|circonf|cf',
    diagonal: 'diagonale|diag|obliqua',
  },
  measures: {
    foot_length: 'lunghezza piede|lungh piede|piede|lunghezza del piede|lung piede|lunghezza plantare',
    foot_breadth:
      'larghezza piede|largh piede|metatarsi|larghezza metatarsale|larghezza avampiede|avampiede|larghezza del piede',
    heel_breadth: 'larghezza tallone|larghezza calcagno',
    malleolar_breadth: 'larghezza malleolare|larghezza caviglia|bimalleolare|larghezza bimalleolare',
    ankle_height: 'altezza malleolo|altezza caviglia|altezza malleolare',
    ankle_girth: 'circonferenza caviglia|circ caviglia|caviglia|giro caviglia',
    calf_girth: 'circonferenza polpaccio|circ polpaccio|polpaccio|giro polpaccio|circonferenza del polpaccio',
    knee_height:
      'altezza ginocchio|altezza interlinea|terra ginocchio|suolo ginocchio|altezza emirima|altezza del ginocchio',
    fibular_head_height:
      'altezza testa perone|altezza testa del perone|terra testa perone|altezza perone|testa perone',
    hip_height: 'altezza trocantere|altezza anca|terra trocantere',
    asis_height: 'altezza sias|terra sias',
    leg_length: 'lunghezza subischiatica|cavallo|interno gamba|altezza cavallo',
    asis_malleolus_length:
      'lunghezza gamba|lunghezza arti|lunghezza arto|lunghezza arti inferiori|sias malleolo|lunghezza arto inferiore|lunghezza gambe|lunghezza della gamba',
    sitting_height:
      'altezza seduto|altezza seduta|statura seduto|altezza da seduto|altezza busto|altezza da seduta|statura da seduto',
    stature: 'altezza|statura|h|lunghezza corporea|altezza totale|altezza in piedi|lunghezza supina',
    thigh_girth: 'circonferenza coscia|circ coscia|coscia|giro coscia',
    hip_girth: 'circonferenza fianchi|giro fianchi|fianchi|circonferenza bacino|circ fianchi|giro bacino',
    waist_girth: 'vita|giro vita|circonferenza vita|circ vita|circonferenza addominale',
    chest_girth: 'circonferenza torace|giro torace|circonferenza toracica|circ torace|torace',
    axillary_girth: 'circonferenza ascellare|giro ascellare|circ ascellare',
    pelvic_breadth: 'larghezza bacino|intersias|larghezza del bacino|bisiliaca|diametro bisiliaco',
    head_circumference:
      'circonferenza cranica|cc|circonferenza testa|circ cranica|giro testa|perimetro cranico|circ testa',
    head_breadth: 'larghezza testa|larghezza cranio|larghezza cranica',
    head_length: 'lunghezza testa|lunghezza cranio|lunghezza cranica',
    head_diagonal: 'diagonale|diagonale cranica|diagonale cranio|diagonale testa',
    weight: 'peso|peso corporeo|massa',
  },
  left: 'sinistra|sinistro|sx|sin|s|sn|sinist',
  right: 'destra|destro|dx|dex|d|ds|dxt|des',
  both: 'entrambi|entrambe|bilaterale|bilat|bilaterali|ambo|sx dx|dx sx|tutti e due|due|2|paio|ambedue|sx e dx|dx e sx|ambo i lati|bil|destra e sinistra|sinistra e destra|sinistra destra|destra sinistra|coppia|1 paio',
  person: 'neonato|lattante|bambino|bambina|paziente|paz|minore|utente|assistito|alunno|alunna|allievo',
  name: 'nome',
  number: 'n|no|num|numero|id|codice|cod|nr',
  date: 'data|il|giorno|del|dt',
  age: 'eta|anni',
  ageMonths: 'mesi|mese',
  ageWeeks: 'settimane|settimana|sett',
  today: 'attuale|oggi|eta attuale',
  otherTime:
    'precedente|prec|prima|vecchio|vecchia|iniziale|inizio|previsto|prevista|obiettivo|atteso|attesa|differenza|crescita',
  noise:
    'nuovo|nuova|alle|allo|all|durante|di|del|della|dello|il|la|lo|le|gli|in|al|alla|ultimo|ultima|attuale|valore|si no|s n|anni|gg mm aaaa|gg mm aa|scalzo|carico|sotto carico|max|massima|misura|a|da|in piedi|terra|suolo|delle|dei|presa|lato|livello|un|anni mesi|dal|massimo|in carico',
  female: 'f|femmina|femminile|bambina|femm|donna|fem|ragazza',
  male: 'm|maschio|maschile|bambino|masc|uomo|ragazzo',
  yes: 'si|s|vero|x|positivo|nota|allergia|+|sì|allergico|presente',
  no: 'no|n|falso|negativo|nessuna|nessuno|normale|conservata|integra|nn|non nota',
  nothing:
    'nd|n d|non misurato|n a|na|assente|non eseguito|non rilevato|sconosciuto|non presentato|annullato|n r|nr|np|n p|non pervenuto|impossibile|non misurata|non fatto|non rilevabile|non nota|rinviato|manca|non noto|mancante|n m|nm|non valutabile|non collabora',
  ditto: 'idem|come sopra|vedi sopra|uguale',
  unchanged: 'come prima|invariato|invariata|stesso|stessa|nessuna modifica',
  doubt:
    'circa|ca|con scarpe|con scarpa|stimato|stima|dubbio|si muove|approssimativo|agitato|calzato|da rivedere|con calze|da ricontrollare|stimata|sdraiato|secondo la madre|piange',
  months:
    'gennaio gen genn|febbraio feb febb|marzo mar|aprile apr|maggio mag magg|giugno giu|luglio lug lugl|agosto ago|settembre set sett|ottobre ott|novembre nov|dicembre dic',
  totals: 'totale|somma|media|numero|conteggio|totali|mediana',
  verdicts: {
    loose: 'largo|larga|grande|abbondante|lento',
    good: 'bene|buono|buona|ok|corretto|adeguato|va bene|ottimo|adeguata|calza bene|discreto|buona vestibilita|b',
    tight:
      'stretto|stretta|giusto|un po stretto|quasi piccolo|al limite|un po stretta|inizia a stringere|giusto giusto|un po corto',
    outgrown:
      'piccolo|piccola|troppo piccolo|corto|corta|non va piu|troppo stretto|da rifare|non calza|troppo corto|troppo piccola|da cambiare|da sostituire',
  },
  endReasons: {
    outgrown:
      'piccolo|piccola|troppo piccolo|troppo piccola|corto|corta|troppo corto|troppo corta|crescita|cresciuto|cresciuta|stretto|stretta|troppo stretto|non entra piu',
    'worn-out': 'usura|usurato|usurata|logoro|logora|consumato|consumata|vecchio',
    broken: 'rotto|rotta|rottura|spezzato|spezzata|crepa|danneggiato|danneggiata',
    lost: 'perso|persa|smarrito|smarrita|perduto|rubato|rubata',
    'function-changed':
      'cambio funzione|nuova prescrizione|cambio prescrizione|cambio ausilio|cambio obiettivo',
    surgery: 'chirurgia|operazione|intervento|operato|operata',
    'tone-or-contracture': 'tono|spasticita|contrattura|contratture|retrazione',
    skin: 'pelle|cute|arrossamento|piaga|piaghe|ferita|vescica|lesione',
    transferred: 'trasferito|trasferita|trasferimento|trasloco|adulti',
    'no-longer-wanted':
      'non piu necessario|non necessario|non piu necessaria|fine trattamento|fine terapia|non portato|non usato|rifiutato|rifiuta|non tollerato|terapia conclusa',
  },
  deviceStates: {
    ordered:
      'ordinato|ordinata|in produzione|in lavorazione|in attesa|prescritto|in costruzione|da consegnare|in attesa di consegna',
    worn: 'in uso|indossato|attuale|consegnato|attivo|porta|consegnata|usa|indossa|attiva',
    retired:
      'vecchio|dismesso|piccolo|sostituito|non usa|terminato|dismessa|sostituita|rotto|perso|vecchia|non in uso',
  },
  childStates: {
    active: 'attivo|attiva|in carico|seguito|in cura',
    'moved-away': 'trasferito|trasferita|altro centro|trasferimento',
    discharged: 'dimesso|dimessa|inattivo|concluso|chiuso|dimissione',
    died: 'deceduto|deceduta|morto',
  },
};
