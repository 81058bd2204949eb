/**
 * What people call a device, in any of the six languages, by family. A name that means several families (AFO) has the
 * families it can mean, the likeliest first: it is asked once. Abbreviations are common practice, no source.
 */

/** A family that rules may not have (a clinic's older rules) is left out by whoever asks. */
export const spokenDevices: Readonly<Record<string, string>> = {
  'foot-orthosis':
    'foot orthosis|foot orthoses|foot orthotic|foot orthotics|fo|fos|insole|insoles|inserts|arch support|arch supports|orthotics|ucbl|ucb|heel cup|heel cups|in shoe orthosis|total contact insole|tci|tcis|inserts|insert|' +
    'einlage|einlagen|schuheinlage|schuheinlagen|fußorthese|fussorthese|einlagenversorgung|sohleneinlage|' +
    'semelle|semelles|semelle orthopedique|semelles orthopediques|orthese plantaire|ortheses plantaires|semelle plantaire|op|' +
    'plantilla|plantillas|ortesis plantar|ortesis plantares|soporte plantar|' +
    'steunzool|steunzolen|zolen|inlegzool|inlegzolen|voetorthese|zool|podotherapeutische zolen|' +
    'plantare|plantari|ortesi plantare|ortesi plantari',
  'supramalleolar-orthosis':
    'supramalleolar orthosis|supramalleolar|smo|smos|supra malleolar|supramalleolar splint|' +
    'supramalleoläre orthese|supramalleolarorthese|knöchelorthese supramalleolär|supramalleoläre|' +
    'orthese supramalleolaire|supramalleolaire|ortesis supramaleolar|supramaleolar|supramalleolaire orthese|enkelorthese supramalleolair|supramalleolair|ortesi sovramalleolare|sovramalleolare',
  'solid-afo':
    'solid afo|safo|solid ankle afo|fixed afo|rigid afo|solid ankle|afo solid|non articulated afo|static afo|solid afos|fixed ankle afo|rigid ankle afo|posterior shell afo|solid ankle foot orthosis|afo fixed|afo rigid|resting afo|night afo|night splint|night splints|resting splint|resting splints|' +
    'starre afo|afo starr|starre unterschenkelorthese|unterschenkelorthese starr|nachtschiene|nachtschienen|lagerungsorthese|nachtlagerungsschiene|lagerungsschiene|statische afo|' +
    'afo rigide|releveur rigide|releveur fixe|orthese rigide|attelle de nuit|attelles de nuit|orthese suro pedieuse rigide|afo fixe|orthese suropedieuse rigide|attelle nuit|' +
    'afo rigido|afo rigida|ferula nocturna|ferula rigida|dafo rigido|afo fijo|antiequino rigido|antiequino nocturno|ferula nocturna|' +
    'starre evo|rigide afo|starre afo|nachtspalk|nachtspalken|evo star|evo stijf|stijve evo|rigide evo|nacht evo|' +
    'afo rigido|afo fisso|afo fissa|tutore rigido|tutore notturno|doccia notturna|afo statico|tutore gamba piede rigido|afo notturno',
  'afo-with-straps':
    'afo with straps|afo with ankle straps|afo with ankle strap|afo ankle strap|afo strap|afo straps|wrap around afo|wraparound afo|dynamic afo|dafo|dafos|dynamic ankle foot orthosis|flexible afo|posterior leaf spring|pls|pls afo|leaf spring afo|leaf spring|' +
    'dynamische unterschenkelorthese|dynamische afo|afo dynamisch|unterschenkelorthese dynamisch|ringorthese|federorthese|peronäusfeder|peroneusfeder|' +
    'afo dynamique|orthese dynamique|releveur|releveur de pied|afo dynamico|afo dinamica|afo dinamico|dafo dinamico|antiequino|antiequinos|rancho|dynamische evo|peroneusveer|evo dynamisch|molla di codivilla|codivilla|afo dinamica',
  'articulated-afo':
    'articulated afo|hinged afo|hafo|jointed afo|afo hinged|afo articulated|afo with joints|afo with hinges|hinged|articulating afo|hinged afos|articulated|aafo|afo joint|afo jointed|hinged ankle foot orthosis|afo hinge|' +
    'afo mit gelenk|gelenk afo|gelenkorthese|unterschenkelorthese mit gelenk|afo gelenk|unterschenkelorthese gelenk|gelenkige afo|unterschenkelgelenkorthese|' +
    'afo articulee|afo articule|orthese articulee|orthese suro pedieuse articulee|releveur articule|orthese suropedieuse articulee|' +
    'afo articulado|afo articulada|antiequino articulado|dafo articulado|ortesis articulada|' +
    'scharnier afo|scharnierende evo|evo met scharnier|gescharnierde evo|afo met scharnier|scharnier evo|gescharnierde afo|evo scharnier|' +
    'afo articolato|afo articolata|tutore articolato|tutore gamba piede articolato|afo con snodo|afo snodato|ortesi articolata',
  'ground-reaction-afo':
    'ground reaction afo|grafo|grafos|floor reaction afo|frafo|anterior shell afo|fro|fros|floor reaction|ground reaction|gr afo|saltiel|anterior afo|floor reaction orthosis|' +
    'bodenreaktionsorthese|frontale anlage|afo ventral|ventrale anlage|afo mit ventraler anlage|ventrale afo|frontalanlage|unterschenkelorthese ventral|' +
    'afo reaction au sol|orthese anterieure|orthese a appui anterieur|afo appui anterieur|antiequino de reaccion al suelo|afo reaccion suelo|afo de reaccion|afo reaccion al suelo|grond reactie afo|grondreactie evo|evo ventraal|frontplaat evo|evo met ventrale schaal|afo a reazione al suolo|afo reazione suolo|afo valva anteriore',
  kafo:
    'kafo|kafos|knee ankle foot orthosis|long leg brace|caliper|calliper|long leg calliper|llb|long leg splint|long leg orthosis|' +
    'oberschenkelorthese|oberschenkelorthesen|ganzbeinorthese|os orthese|beinorthese|grand appareil|orthese cruro pedieuse|orthese cruropedieuse|kafo orthese|ocp|grand appareil de marche|' +
    'bitutor largo|ortesis larga|kafo ortesis|bitutor|beenbeugel|kevo|lange beugel|knie enkel voet orthese|lange beenorthese|tutore coscia gamba piede|tutore coscia piede|tutore lungo|doccia coscia gamba piede',
  hkafo:
    'hkafo|hip knee ankle foot orthosis|reciprocating gait orthosis|rgo|argo|hip guidance orthosis|hgo|swivel walker|thkafo|parawalker|standing frame|' +
    'beckenbeinorthese|hüftbeinorthese|becken bein orthese|reziprokator|orthese pelvi pedieuse|orthese pelvipedieuse|bitutor con cinturon pelvico|bitutor pelvico|hkevo|heup knie enkel voet orthese|tutore bacino coscia gamba piede|rgo tutore',
  'hip-abduction-orthosis':
    'hip abduction orthosis|abduction orthosis|hip abduction brace|abduction brace|abduction harness|harness|pavlik harness|pavlik|pavlik bandage|harnais de pavlik|arnes de pavlik|pavlikbandage|hip harness|hip brace|hip orthosis|hip abduction|ddh harness|abduction splint|hip spica brace|swash|sitting walking and standing hip orthosis|' +
    'spreizhose|spreizhosen|hüftbeugeschiene|hüftorthese|spreizschiene|abduktionsschiene|beugespreizorthese|hüftspreizschiene|hüftabduktionsorthese|bandage spreiz|culotte d abduction|attelle d abduction|orthese d abduction|harnais de hanche|harnais|coussin d abduction|orthese de hanche|' +
    'arnes de abduccion|ferula de abduccion|arnes|ortesis de abduccion|ortesis de cadera|spreidbroek|spreidspalk|heuporthese|spreidbroekje|campschem spreid|divaricatore|divaricatore d anca|tutore anca|mutandina divaricatrice|tutore in abduzione',
  'spinal-orthosis':
    'spinal orthosis|spinal brace|tlso|lso|ctlso|scoliosis brace|spinal jacket|back brace|jacket|body jacket|cdo|scoliosis jacket|night time brace|spinal|kyphosis brace|night brace|trunk brace|' +
    'ctm|corset ctm|korsett|rumpforthese|skoliosekorsett|rumpfkorsett|corset|corset scoliose|corset tronc|orthese du tronc|corset de nuit|corset siege|corse|corset ortopedico|corse toracolumbar|ortesis de tronco|corse nocturno|corse tlso|korset|scoliosekorset|brace scoliose|rompkorset|brace rug|' +
    'corsetto|busto|busto ortopedico|corsetto ortopedico|busto per scoliosi|corsetto notturno|scoliose brace',
  'cranial-orthosis':
    'cranial orthosis|helmet|cranial helmet|cranial remoulding orthosis|cranial remolding orthosis|head band|cro|remoulding helmet|plagio helmet|moulding helmet|cranial band|remolding helmet|headband|molding helmet|' +
    'helm|kopforthese|helmtherapie|kopfhelm|helmorthese|schädelorthese|casque|casque cranien|orthese cranienne|casque plagiocephalie|casque plagio|casco|casco craneal|ortesis craneal|casco ortopedico|banda craneal|redressiehelm|helmpje|redressie helm|schedelhelm|caschetto|casco ortopedico|casco cranico|ortesi cranica|elmetto',
  'knee-orthosis':
    'knee orthosis|knee brace|ko|kos|knee splint|gaiter|gaiters|knee immobiliser|knee immobilizer|knee gaiter|leg gaiters|' +
    'knieorthese|knieschiene|kniebandage|kniestreckschiene|genouillere|orthese de genou|attelle de genou|rodillera|ortesis de rodilla|kniebrace|ginocchiera|tutore ginocchio|tutore di ginocchio',
  'wrist-hand-orthosis':
    'wrist hand orthosis|who|whfo|hand splint|wrist splint|wrist hand|resting hand splint|hand orthosis|whos|wrist brace|thumb splint|' +
    'handorthese|handschiene|handlagerungsschiene|orthese de main|attelle de main|orthese poignet main|attelle poignet|ferula de mano|ortesis de mano|ferula mano|handspalk|polsspalk|tutore mano|tutore polso mano|ortesi di mano|orthese main|handlagerungsorthese',
  'boots-and-bar':
    'boots and bar|denis browne|denis browne bar|denis browne boots|ponseti boots|ponseti brace|ponseti bar|boots bar|boots on bar|bar and boots|foot abduction brace|foot abduction orthosis|abduction boots|fab|fao|club foot boots|clubfoot boots|bnb|b b|clubfoot brace|boots and bars|abduction bar|' +
    'fußabduktionsschiene|klumpfußschiene|klumpfuß schiene|schienen klumpfuß|schuhe mit schiene|schiene mit schuhen|denis browne schiene|attelle de denis browne|attelle denis browne|ferula de denis browne|tutore con barra|denis browne spalk|tutore di denis browne|attelle de derotation|barre d abduction|attelle pied bot|attelles pieds bots|chaussures et barre|botas y barra|barra de abduccion|ferula pie zambo|ferula de abduccion de pies|klompvoetbrace|voetabductiebrace|klompvoet schoentjes|klompvoetschoentjes|tutore di abduzione piedi|tutore piede torto|scarpette e barra|scarpine con barra',
  'shoe-raise':
    'shoe raise|raise|heel raise|shoe lift|heel lift|shoe adaptation raise|sole raise|raises|lift|' +
    'schuherhöhung|absatzerhöhung|fersenerhöhung|sohlenerhöhung|erhöhung|verkürzungsausgleich|rehausse|talonnette|compensation|semelle de compensation|alza|talonera|compensacion|hakverhoging|schoenverhoging|verhoging|zoolverhoging|rialzo|tacco rialzato|rialzo scarpa|alzo',
};

/** Names that leave the family open: which are meant, the likeliest first. */
export const openDevices: Readonly<Record<string, { readonly words: string; readonly plural?: string }>> = {
  'solid-afo|articulated-afo|afo-with-straps|ground-reaction-afo': {
    words:
      'afo|afos|ankle foot orthosis|ankle foot orthoses|ankle brace|ankle braces|unterschenkelorthese|unterschenkelorthesen|us orthese|fußheberorthese|orthese suro pedieuse|orthese suropedieuse|osp|orthese de cheville|attelle suro pedieuse|orthese cheville pied|ortesis tobillo pie|ortesis de tobillo|ferula tobillo pie|evo|evo s|evos|enkel voet orthese|enkelvoetorthese|onderbeenorthese|tutore gamba piede|tutore caviglia|ortesi gamba piede|tutore afo|ferula afo|afo orthese|ankle foot orthotic|leg splint|leg splints|knöchel fuß orthese|sprunggelenkorthese|orthese jambiere|orthese jambe pied|ortesi caviglia piede|afo s|ankle splint|ferula antiequino|ankle orthosis',
  },
};

/** Words that beside an open name say which family it is. */
export const deviceQualifiers: Readonly<Record<string, string>> = {
  'articulated-afo':
    'hinged|hinge|hinges|articulated|articulating|jointed|joint|joints|gelenk|gelenke|gelenken|gelenkig|articule|articulee|articulation|articulado|articulada|articulacion|articolato|articolata|snodo|snodato|snodata|scharnier|scharnieren|scharnierend|scharnierende|gescharnierd|gescharnierde',
  'solid-afo':
    'solid|rigid|fixed|static|resting|night|starr|starre|statisch|statische|nacht|rigide|fixe|nuit|rigido|rigida|fijo|fija|nocturno|nocturna|stijf|stijve|star|fisso|fissa|notturno|notturna',
  'afo-with-straps':
    'dynamic|flexible|spring|strap|straps|dynamisch|dynamische|feder|dynamique|dinamico|dinamica|veer|molla',
  'ground-reaction-afo':
    'ground|floor|reaction|ventral|ventrale|ventraler|anterior|frontal|anterieur|suelo|reaccion|grondreactie|reazione',
};
