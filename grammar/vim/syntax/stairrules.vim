" Rules for timber stairs. The lists of words are written by a test, from the tool's own tables.
if exists('b:current_syntax')
  finish
endif
scriptencoding utf-8

" A pattern between signs that stand in none.
function! s:Quoted(pattern) abort
  return '~' . a:pattern . '~'
endfunction

" Any of the words that were listed last, whole, between what has to stand before and after.
function! s:Match(name, before, after) abort
  let l:whole = '\%(' . join(s:words, '\|') . '\)' . '\%([[:alnum:]_]\|[-''’]\a\)\@!'
  execute 'syntax match' a:name s:Quoted(a:before . l:whole . a:after)
endfunction

" Of what begins at one place the last one here counts. Words that are in no list are passed over, with the digits in them.
syntax match stairRulesOther ~[[:alpha:]_][[:alnum:]_]*\%([-'’]\a[[:alnum:]_]*\)*~
" begin words
let s:words = []
let s:words += ['pressure-treated for ground contact', 'kiln-dried after treatment', 'treated for ground contact']
let s:words += ['not preservative-treated', 'dense select structural', 'douglas fir-larch north']
let s:words += ['fire-retardant-treated', 'slip-resistant varnish', 'the ends of the treads', 'hot-dipped galvanised']
let s:words += ['hot-dipped galvanized', 'spruce-pine-fir south', 'northern white cedar', 'not pressure-treated']
let s:words += ['preservative-treated', 'slip-resistant paint', 'southern yellow pine', 'alaska yellow cedar']
let s:words += ['away from the stair', 'away from the steps', 'grit in the varnish', 'mixed southern pine']
let s:words += ['sand in the varnish', 'construction grade', 'eastern white pine', 'hot-dip galvanised']
let s:words += ['hot-dip galvanized', 'laminated tempered', 'redwood open grain', 'anti-slip varnish']
let s:words += ['douglas fir south', 'douglas fir-larch', 'grit in the paint', 'sand in the paint']
let s:words += ['select structural', 'structural select', 'varnish with sand', 'western red cedar']
let s:words += ['without treatment', 'anti-slip strips', 'european redwood', 'non-slip varnish', 'pressure-treated']
let s:words += ['abrasive strips', 'anti-slip paint', 'anti-slip strip', 'deck grip paint', 'exterior coated']
let s:words += ['no preservative', 'non-slip strips', 'paint with grit', 'paint with sand', 'safety terminal']
let s:words += ['sand in varnish', 'spruce-pine-fir', 'stainless steel', 'abrasive strip', 'anti-slip tape']
let s:words += ['carriage bolts', 'european larch', 'grooved across', 'ground contact', 'non-slip paint']
let s:words += ['non-slip strip', 'not galvanised', 'not understood', 'over the stair', 'over the steps']
let s:words += ['polymer coated', 'ponderosa pine', 'siberian larch', 'standard grade', 'sweet chestnut']
let s:words += ['western cedars', 'abrasive tape', 'carpet runner', 'carriage bolt', 'floor varnish', 'framing angle']
let s:words += ['grooved along', 'hem-fir north', 'in the centre', 'never treated', 'non-slip tape', 'norway spruce']
let s:words += ['on the treads', 'planed smooth', 'quarter right', 'sand in paint', 'sanded smooth', 'sanded strips']
let s:words += ['southern pine', 'utility grade', 'western cedar', 'western larch', 'yacht varnish', 'at a landing']
let s:words += ['behind tread', 'between ends', 'black locust', 'black walnut', 'coach screws', 'common nails']
let s:words += ['construction', 'freestanding', 'gypsum board', 'hard wax oil', 'heat-treated', 'no treatment']
let s:words += ['not finished', 'quarter left', 'sanded paint', 'sanded strip', 'sinker nails', 'sitka spruce']
let s:words += ['spar varnish', 'ungalvanised', 'at the wall', 'clear grade', 'coach bolts', 'common nail']
let s:words += ['countersunk', 'decking oil', 'douglas fir', 'floor paint', 'gloss paint', 'grip strips']
let s:words += ['grit strips', 'hardwax oil', 'linseed oil', 'non-treated', 'not checked', 'not painted']
let s:words += ['not treated', 'rectangular', 'sanded down', 'stair above', 'wood screws', 'No\.1 dense']
let s:words += ['No\.2 dense', 'both sides', 'coach bolt', 'danish oil', 'deck paint', 'dense No\.1', 'dense No\.2']
let s:words += ['dovetailed', 'face-fixed', 'galvanised', 'galvanized', 'grip paint', 'grip strip', 'grit strip']
let s:words += ['half right', 'kiln-dried', 'lag screws', 'left rough', 'no coating', 'not coated', 'rough sawn']
let s:words += ['sawn rough', 'scots pine', 'stud grade', 'unfinished', 'unseasoned', 'wood screw', 'SPF south']
let s:words += ['air-dried', 'all of it', 'at a post', 'at a turn', 'at an end', 'balusters', 'both ways', 'box nails']
let s:words += ['by itself', 'elsewhere', 'end grain', 'fasteners', 'grip tape', 'grit tape', 'half left', 'hex bolts']
let s:words += ['lacquered', 'lag bolts', 'lag screw', 'laminated', 'left bare', 'no finish', 'red maple', 'saw rough']
let s:words += ['stainless', 'the stair', 'unpainted', 'untreated', 'varnished', 'white oak', 'wire mesh', 'workplace']
let s:words += ['anchored', 'annealed', 'blocking', 'box nail', 'brackets', 'bulkhead', 'carpeted', 'carriage']
let s:words += ['chestnut', 'deck oil', 'doug fir', 'dwelling', 'hardwood', 'hex bolt', 'hex head', 'lag bolt']
let s:words += ['nut side', 'on tread', 'outdoors', 'profiled', 'returned', 'softwood', 'standard', 'straight']
let s:words += ['tempered', 'toenails', 'tung oil', 'uncoated', 'advised', 'between', 'by hand', 'cypress', 'footing']
let s:words += ['general', 'grooved', 'grooves', 'hangers', 'hem-fir', 'hemlock', 'hexagon', 'hickory', 'indoors']
let s:words += ['lacquer', 'landing', 'masonry', 'notched', 'nothing', 'nowhere', 'on edge', 'painted', 'plaster']
let s:words += ['private', 'red oak', 'redwood', 'robinia', 'sinkers', 'stained', 'treated', 'turnout', 'utility']
let s:words += ['varnish', 'across', 'angles', 'boards', 'bright', 'broken', 'cables', 'carpet', 'cleats', 'coated']
let s:words += ['common', 'easing', 'ground', 'hanger', 'housed', 'kicker', 'ledger', 'panels', 'pinned', 'planed']
let s:words += ['poplar', 'primed', 'primer', 'public', 'ribbed', 'sanded', 'screws', 'sealed', 'shared', 'sinker']
let s:words += ['slides', 'smooth', 'soaped', 'soffit', 'spruce', 'straps', 'volute', 'walnut', 'wedges', 'KD-HT']
let s:words += ['S-DRY', 'S-GRN', 'S-P-F', 'along', 'beech', 'birch', 'black', 'bolts', 'cedar', 'clear', 'floor']
let s:words += ['glass', 'green', 'inner', 'iroko', 'joist', 'larch', 'maple', 'nails', 'newel', 'oiled', 'other']
let s:words += ['outer', 'paint', 'panel', 'plain', 'rails', 'right', 'rough', 'round', 'screw', 'solid', 'stain']
let s:words += ['walls', 'waxed', 'DF-L', 'KDAT', 'No\.1', 'No\.2', 'No\.3', 'UC3B', 'UC4A', 'UC4B', 'bare', 'beam']
let s:words += ['bolt', 'door', 'down', 'flat', 'foot', 'head', 'lags', 'left', 'mesh', 'nail', 'none', 'open', 'pine']
let s:words += ['poor', 'ribs', 'rich', 'roof', 'soap', 'stud', 'teak', 'wall', 'C14', 'C16', 'C18', 'C24', 'C30']
let s:words += ['D24', 'D30', 'D40', 'FRT', 'HDG', 'SPF', 'SYP', 'ash', 'box', 'dry', 'far', 'fir', 'hex', 'ipe']
let s:words += ['lag', 'oak', 'oil', 'pad', 'wax', 'yes', 'A2', 'A4', 'HT', 'KD', 'PT', 'no', 'up']
" end words
call s:Match('stairRulesWord', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin things
let s:words = []
let s:words += ['riser boards', 'spaces below', 'riser board', 'space below', 'riser bars', 'handrails', 'riser bar']
let s:words += ['stringers', 'brackets', 'ceilings', 'handrail', 'landings', 'measured', 'sections', 'stringer']
let s:words += ['bracket', 'ceiling', 'flights', 'folders', 'grounds', 'headers', 'landing', 'members', 'section']
let s:words += ['timbers', 'waivers', 'winders', 'braces', 'flight', 'folder', 'ground', 'guards', 'header', 'joints']
let s:words += ['joists', 'member', 'risers', 'stairs', 'timber', 'treads', 'waiver', 'beams', 'brace', 'doors']
let s:words += ['gates', 'guard', 'joint', 'joist', 'parts', 'posts', 'riser', 'shops', 'stair', 'tread', 'walls']
let s:words += ['wells', 'beam', 'door', 'gate', 'part', 'post', 'shop', 'wall', 'well']
" end things
call s:Match('stairRulesThing', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin quantities
let s:words = []
let s:words += ['drop beside the steps within', 'room under the turn above', 'overhang over deflection']
let s:words += ['taken at the narrow side', 'clear to the rail below', 'baluster bending ratio']
let s:words += ['height off the drawing', 'level to the set above', 'nosing from the boards', 'overhang bending ratio']
let s:words += ['edge beside the steps', 'far edge in diameters', 'length past the first', 'underside at its prop']
let s:words += ['unguarded drop within', 'drawn from end grain', 'finished first riser', 'infill bending ratio']
let s:words += ['opening above ground', 'spacing in diameters', 'span over deflection', 'sweep over the steps']
let s:words += ['tread below the feet', 'board height needed', 'edge past the steps', 'finished last riser']
let s:words += ['height above ground', 'measurements signed', 'outer string inward', 'room in the housing']
let s:words += ['room under its edge', 'unrailed open sides', 'unrailed wide sides', 'baluster remainder']
let s:words += ['board depth needed', 'flight above width', 'foot bearing ratio', 'foot bending ratio']
let s:words += ['head bearing ratio', 'head bending ratio', 'midrail off midway', 'overturning factor']
let s:words += ['treads wound twice', 'width above recess', 'width at the rails', 'edge in diameters']
let s:words += ['edge off the well', 'midrail thickness', 'room in the wedge', 'bottom extension', 'end in diameters']
let s:words += ['first cut needed', 'foot notch share', 'foot shear ratio', 'gap at the posts', 'head notch share']
let s:words += ['head shear ratio', 'least elasticity', 'reaches the rail', 'slack at the top', 'triangle opening']
let s:words += ['winder spread at', 'above its floor', 'between flights', 'board thickness', 'fastener length']
let s:words += ['flights abreast', 'head on its rim', 'last cut needed', 'midrail opening', 'reach to a rail']
let s:words += ['reaches a guard', 'toe board drawn', 'tread fasteners', 'baluster count', 'baluster width']
let s:words += ['coating stands', 'contrast below', 'dropped header', 'fastener count', 'foot fasteners']
let s:words += ['handrail sides', 'head fasteners', 'most fasteners', 'past its grade', 'quarter circle']
let s:words += ['rail fasteners', 'recess reached', 'strip of floor', 'unguarded drop', 'unrailed walls']
let s:words += ['baluster feet', 'balusters for', 'bearing ratio', 'bending ratio', 'between posts', 'bottom finish']
let s:words += ['circumference', 'guards beside', 'height spread', 'landing drawn', 'lateral ratio', 'lateral value']
let s:words += ['midrail drawn', 'narrow radius', 'next fastener', 'nosing spread', 'off the steps', 'opening above']
let s:words += ['opening below', 'risers missed', 'spiral across', 'switch floors', 'tearing ratio', 'toe board gap']
let s:words += ['top extension', 'top rail lies', 'width lacking', 'baluster cut', 'baluster gap', 'barrier edge']
let s:words += ['board height', 'column ratio', 'deck lacking', 'depth needed', 'flight width', 'foot bearing']
let s:words += ['grain length', 'group across', 'guard beside', 'head bearing', 'level length', 'narrow depth']
let s:words += ['narrow going', 'post spacing', 'pulled ratio', 'railed sides', 'reached from', 'recess depth']
let s:words += ['recess start', 'rise closure', 'riser spread', 'room beneath', 'room between', 'steps behind']
let s:words += ['strip margin', 'tallest post', 'treads swept', 'two-by depth', 'width needed', 'winder count']
let s:words += ['wood beneath', 'board count', 'board depth', 'broad depth', 'broad going', 'compression']
let s:words += ['drop within', 'edge length', 'edge radius', 'fall across', 'group apart', 'held behind']
let s:words += ['interrupted', 'longest bit', 'next string', 'nosing line', 'notch share', 'penetration']
let s:words += ['pilot share', 'pole radius', 'prop height', 'push height', 'recess kept', 'riser count']
let s:words += ['riser faces', 'room behind', 'row spacing', 'run closure', 'shear ratio', 'slenderness']
let s:words += ['steps above', 'thinner way', 'wall behind', 'wall beside', 'winder side', 'accessible', 'bare sides']
let s:words += ['bottom gap', 'carried by', 'clear span', 'drawn span', 'edge bevel', 'elasticity', 'foot notch']
let s:words += ['from riser', 'from tread', 'front foot', 'head notch', 'larger way', 'leg height', 'level span']
let s:words += ['load width', 'off square', 'open sides', 'other edge', 'plate room', 'projection', 'pull ratio']
let s:words += ['rail depth', 'rail posts', 'recess end', 'room above', 'room below', 'root share', 'run spread']
let s:words += ['seat depth', 'step depth', 'toe-nailed', 'top finish', 'total rise', 'upper pull', 'widest gap']
let s:words += ['wood ahead', 'worst load', 'balusters', 'bare edge', 'clearance', 'climbable', 'continues']
let s:words += ['dead load', 'direction', 'edge left', 'elevation', 'first cut', 'foot seat', 'hold-down', 'hole play']
let s:words += ['infill to', 'level gap', 'occupants', 'own posts', 'panel gap', 'perimeter', 'rails lie', 'room left']
let s:words += ['set above', 'snow load', 'thickness', 'threshold', 'toe board', 'total run', 'underside', 'unit rise']
let s:words += ['contrast', 'crushing', 'cut ends', 'depth at', 'diagonal', 'diameter', 'enclosed', 'even gap']
let s:words += ['fastener', 'hardness', 'headroom', 'last cut', 'leads on', 'nut room', 'overhang', 'post top']
let s:words += ['rests on', 'set back', 'standing', 'switches', 'to riser', 'to tread', 'unit run', 'barrier']
let s:words += ['bearing', 'bending', 'carries', 'coating', 'durable', 'end cut', 'end gap', 'fail on', 'gravity']
let s:words += ['held by', 'housing', 'midrail', 'notched', 'opening', 'part of', 'read to', 'service', 'setting']
let s:words += ['spacing', 'through', 'tied by', 'top gap', 'treated', 'washers', 'access', 'across', 'begins']
let s:words += ['behind', 'boards', 'cables', 'demand', 'egress', 'finish', 'height', 'infill', 'length', 'let in']
let s:words += ['lining', 'narrow', 'nosing', 'rating', 'screws', 'spacer', 'spiral', 'stands', 'tannin', 'throat']
let s:words += ['way on', 'above', 'below', 'bolts', 'count', 'depth', 'every', 'girth', 'glass', 'grain', 'index']
let s:words += ['latch', 'lined', 'nails', 'notch', 'pilot', 'pitch', 'place', 'plate', 'props', 'rails', 'shape']
let s:words += ['shear', 'slope', 'spans', 'stack', 'swing', 'until', 'width', 'area', 'bays', 'drop', 'duty', 'edge']
let s:words += ['ends', 'fall', 'foot', 'from', 'give', 'grip', 'head', 'hole', 'lags', 'leaf', 'lean', 'legs', 'load']
let s:words += ['over', 'plan', 'rise', 'runs', 'ship', 'side', 'snow', 'span', 'tier', 'turn', 'cut', 'end', 'gap']
let s:words += ['run', 'use', 'on', 'to']
" end quantities
call s:Match('stairRulesQuantity', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin clauses
let s:words = []
let s:words += ['largest decrease of', 'largest increase of', 'largest change of', 'of riser before', 'deviation of']
let s:words += ['riser after', 'should have', 'greater of', 'shall have', 'is one of', 'lesser of', 'number of']
let s:words += ['measured', 'smallest', 'largest', 'is not', 'unless', 'along', 'drawn', 'first', 'total', 'where']
let s:words += ['each', 'last', 'and', 'not', 'per', 'is', 'of', 'or']
" end clauses
call s:Match('stairRulesClause', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
syntax match stairRulesOpenText ~["“][^"”}]*~
syntax match stairRulesText ~["“]\%(\\"\|[^"”]\)*["”]~ contains=@Spell
syntax match stairRulesComment ~#\d\@!.*~ contains=@Spell
syntax match stairRulesBy ~×\|[xX]\a\@!~
syntax match stairRulesOperator ~<=\|>=\|!=\|[<>=≤≥≠+*/÷]\|[ \t]\@1<=-[ \t]\@=~
syntax match stairRulesSign ~\%(#\|№[ \t]*\|\<[Nn]o\.[ \t]*\|\<No[ \t]*\)\d\+~
" begin units
let s:words = []
let s:words += ['degrees', 'degree', 'inches', 'sq ft', 'sq in', 'feet', 'foot', 'inch', 'kN/m', 'MPa', 'N/m', 'deg']
let s:words += ['kPa', 'lbs', 'mm2', 'mm²', 'plf', 'psf', 'psi', 'cm', 'ft', 'in', 'kN', 'lb', 'mm', 'N', 'm', 'º']
" end units
let s:amount = '\%(\d\+\%([/⁄]\d\+\|\.\d\+\|\%(-\|[ \t]\+\)\%(\d\+[/⁄]\d\+\|[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]\)\|[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]\)\=\|\.\d\+\|[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]\)'
let s:inch = '\%(''''\|["″”]\)'
let s:unit = '[ \t]*[°º˚%]\|[ \t]\+in[ \t]\+' . s:amount . '\|d[[:alnum:]]\@!\|[ \t]*\%(' . join(s:words, '\|') . '\)\%([[:alnum:]]\)\@!'
let s:feet = '[''′’]\%(\%(-\|[ \t]*\)' . s:amount . s:inch . '\)\='
execute 'syntax match stairRulesFigure ' . s:Quoted('\d\{4}-\d\d-\d\d\d\@!\|' . s:amount . '\%(' . s:inch . '\|' . s:feet . '\|' . s:unit . '\)\=')
" begin properties
let s:words = []
let s:words += ['width above recess', 'midrail thickness', 'bottom extension', 'least elasticity', 'between flights']
let s:words += ['contrast below', 'dropped header', 'recess reached', 'strip of floor', 'baluster feet']
let s:words += ['between posts', 'bottom finish', 'off the steps', 'toe board gap', 'top extension', 'top rail lies']
let s:words += ['baluster cut', 'barrier edge', 'foot bearing', 'head bearing', 'hold-down by', 'reached from']
let s:words += ['recess depth', 'recess start', 'compression', 'edge radius', 'fall across', 'interrupted']
let s:words += ['longest bit', 'recess kept', 'row spacing', 'accessible', 'bottom gap', 'elasticity', 'foot notch']
let s:words += ['from riser', 'from tread', 'front foot', 'head notch', 'open sides', 'recess end', 'toe-nailed']
let s:words += ['top finish', 'total rise', 'widest gap', 'balusters', 'clearance', 'continues', 'direction']
let s:words += ['first cut', 'hold-down', 'infill to', 'occupants', 'panel gap', 'perimeter', 'rails lie', 'thickness']
let s:words += ['threshold', 'toe board', 'total run', 'contrast', 'crushing', 'cut ends', 'diameter', 'enclosed']
let s:words += ['handrail', 'hardness', 'headroom', 'last cut', 'leads on', 'overhang', 'rests on', 'standing']
let s:words += ['switches', 'to riser', 'to tread', 'barrier', 'bearing', 'bending', 'durable', 'end cut', 'end gap']
let s:words += ['fail on', 'gravity', 'held by', 'housing', 'midrail', 'notched', 'part of', 'read to', 'section']
let s:words += ['setting', 'spacing', 'species', 'through', 'tied by', 'top gap', 'washers', 'access', 'across']
let s:words += ['begins', 'behind', 'boards', 'cables', 'egress', 'finish', 'height', 'infill', 'length', 'let in']
let s:words += ['lining', 'narrow', 'nosing', 'rating', 'risers', 'screws', 'spacer', 'spiral', 'stands', 'tannin']
let s:words += ['timber', 'along', 'below', 'bolts', 'class', 'count', 'depth', 'every', 'glass', 'joins', 'latch']
let s:words += ['lined', 'nails', 'notch', 'pilot', 'plate', 'rails', 'rules', 'shape', 'shear', 'slope', 'swing']
let s:words += ['until', 'width', 'area', 'edge', 'ends', 'fall', 'foot', 'from', 'give', 'head', 'hole', 'lags']
let s:words += ['leaf', 'lean', 'only', 'over', 'plan', 'runs', 'ship', 'snow', 'span', 'turn', 'cut', 'end', 'gap']
let s:words += ['set', 'use', 'why', 'at', 'by', 'on', 'to']
" end properties
call s:Match('stairRulesProperty', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([ \t]*:\)\@=')
" begin kinds
let s:words = []
let s:words += ['riser board', 'space below', 'riser bar', 'handrail', 'measured', 'stringer', 'bracket', 'ceiling']
let s:words += ['landing', 'section', 'winders', 'flight', 'folder', 'ground', 'header', 'timber', 'brace', 'guard']
let s:words += ['joint', 'joist', 'stair', 'tread', 'waive', 'beam', 'door', 'gate', 'post', 'shop', 'wall', 'well']
let s:words += ['in']
" end kinds
call s:Match('stairRulesKind', '\%(\%(^\|[{};:]\)[ \t]*\)\@<=', '\%(\%("[^"]*"\|“[^”]*”\|[^:;{}"#]\|#\d\)*{\)\@=')
" begin parts
let s:words = []
let s:words += ['read between', 'formerly', 'limit by', 'because', 'caution', 'classes', 'edition', 'amends', 'passes']
let s:words += ['source', 'spares', 'basis', 'fails', 'limit', 'waive', 'where', 'says', 'sure', 'verb', 'and', 'for']
" end parts
call s:Match('stairRulesPart', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([^:{};"]*:\)\@=')
" begin blocks
let s:words = []
let s:words += ['amend figure', 'withdraw', 'chapter', 'ruleset', 'figure', 'amend', 'is by', 'rule']
" end blocks
call s:Match('stairRulesBlock', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%(\%("[^"]*"\|“[^”]*”\|[^:;{}"#]\|#\d\)*{\)\@=')
highlight default link stairRulesComment Comment
highlight default link stairRulesText String
highlight default link stairRulesOpenText Error
highlight default link stairRulesFigure Number
highlight default link stairRulesSign Number
highlight default link stairRulesBy Operator
highlight default link stairRulesOperator Operator
highlight default link stairRulesClause Keyword
highlight default link stairRulesThing Type
highlight default link stairRulesQuantity Identifier
highlight default link stairRulesWord Constant
highlight default link stairRulesProperty Identifier
highlight default link stairRulesKind Statement
highlight default link stairRulesPart Identifier
highlight default link stairRulesBlock Statement

syntax sync minlines=50
let b:current_syntax = 'stairrules'
