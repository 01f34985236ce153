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
let s:words += ['planed smooth', 'quarter right', 'sand in paint', 'sanded smooth', 'sanded strips', 'southern pine']
let s:words += ['utility grade', 'western cedar', 'western larch', 'yacht varnish', 'at a landing', 'behind tread']
let s:words += ['between ends', 'black locust', 'black walnut', 'coach screws', 'common nails', 'construction']
let s:words += ['freestanding', 'gypsum board', 'hard wax oil', 'heat-treated', 'no treatment', 'not finished']
let s:words += ['quarter left', 'sanded paint', 'sanded strip', 'sinker nails', 'sitka spruce', 'spar varnish']
let s:words += ['ungalvanised', 'at the wall', 'clear grade', 'coach bolts', 'common nail', 'countersunk']
let s:words += ['decking oil', 'douglas fir', 'floor paint', 'gloss paint', 'grip strips', 'grit strips']
let s:words += ['hardwax oil', 'linseed oil', 'non-treated', 'not checked', 'not painted', 'not treated']
let s:words += ['rectangular', 'sanded down', 'stair above', 'wood screws', 'No\.1 dense', 'No\.2 dense', 'both sides']
let s:words += ['coach bolt', 'danish oil', 'deck paint', 'dense No\.1', 'dense No\.2', 'galvanised', 'galvanized']
let s:words += ['grip paint', 'grip strip', 'grit strip', 'half right', 'kiln-dried', 'lag screws', 'left rough']
let s:words += ['no coating', 'not coated', 'rough sawn', 'sawn rough', 'scots pine', 'stud grade', 'unfinished']
let s:words += ['unseasoned', 'wood screw', 'SPF south', 'air-dried', 'all of it', 'at a post', 'at a turn']
let s:words += ['at an end', 'balusters', 'both ways', 'box nails', 'by itself', 'elsewhere', 'end grain', 'fasteners']
let s:words += ['grip tape', 'grit tape', 'half left', 'hex bolts', 'lacquered', 'lag bolts', 'lag screw', 'laminated']
let s:words += ['left bare', 'no finish', 'red maple', 'saw rough', 'stainless', 'the stair', 'unpainted', 'untreated']
let s:words += ['varnished', 'white oak', 'wire mesh', 'workplace', 'anchored', 'annealed', 'blocking', 'box nail']
let s:words += ['brackets', 'bulkhead', 'carpeted', 'carriage', 'chestnut', 'deck oil', 'doug fir', 'dwelling']
let s:words += ['hardwood', 'hex bolt', 'hex head', 'lag bolt', 'nut side', 'on tread', 'outdoors', 'profiled']
let s:words += ['returned', 'softwood', 'standard', 'straight', 'tempered', 'toenails', 'tung oil', 'uncoated']
let s:words += ['advised', 'between', 'by hand', 'cypress', 'footing', 'general', 'grooved', 'grooves', 'hangers']
let s:words += ['hem-fir', 'hemlock', 'hexagon', 'hickory', 'indoors', 'lacquer', 'landing', 'masonry', 'notched']
let s:words += ['nothing', 'nowhere', 'on edge', 'painted', 'plaster', 'private', 'red oak', 'redwood', 'robinia']
let s:words += ['sinkers', 'stained', 'treated', 'turnout', 'utility', 'varnish', 'across', 'angles', 'boards']
let s:words += ['bright', 'broken', 'cables', 'carpet', 'cleats', 'coated', 'common', 'easing', 'ground', 'hanger']
let s:words += ['housed', 'kicker', 'ledger', 'panels', 'planed', 'poplar', 'primed', 'primer', 'public', 'ribbed']
let s:words += ['sanded', 'screws', 'sealed', 'shared', 'sinker', 'slides', 'smooth', 'soaped', 'soffit', 'spruce']
let s:words += ['straps', 'volute', 'walnut', 'wedges', 'KD-HT', 'S-DRY', 'S-GRN', 'S-P-F', 'along', 'beech', 'birch']
let s:words += ['black', 'bolts', 'cedar', 'clear', 'floor', 'glass', 'green', 'inner', 'iroko', 'joist', 'larch']
let s:words += ['maple', 'nails', 'newel', 'oiled', 'other', 'outer', 'paint', 'panel', 'plain', 'rails', 'right']
let s:words += ['rough', 'round', 'screw', 'solid', 'stain', 'walls', 'waxed', 'DF-L', 'KDAT', 'No\.1', 'No\.2']
let s:words += ['No\.3', 'UC3B', 'UC4A', 'UC4B', 'bare', 'beam', 'bolt', 'door', 'down', 'flat', 'foot', 'head']
let s:words += ['lags', 'left', 'mesh', 'nail', 'none', 'open', 'pine', 'poor', 'ribs', 'rich', 'roof', 'soap', 'stud']
let s:words += ['teak', 'wall', 'C14', 'C16', 'C18', 'C24', 'C30', 'D24', 'D30', 'D40', 'FRT', 'HDG', 'SPF', 'SYP']
let s:words += ['ash', 'box', 'dry', 'far', 'fir', 'hex', 'ipe', 'lag', 'oak', 'oil', 'pad', 'wax', 'yes', 'A2', 'A4']
let s:words += ['HT', 'KD', 'PT', 'no', 'up']
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
let s:words += ['board height needed', 'edge past the steps', 'finished last riser', 'height above ground']
let s:words += ['measurements signed', 'outer string inward', 'room in the housing', 'room under its edge']
let s:words += ['unrailed open sides', 'unrailed wide sides', 'baluster remainder', 'board depth needed']
let s:words += ['flight above width', 'foot bearing ratio', 'foot bending ratio', 'head bearing ratio']
let s:words += ['head bending ratio', 'midrail off midway', 'overturning factor', 'treads wound twice']
let s:words += ['width above recess', 'width at the rails', 'edge in diameters', 'edge off the well']
let s:words += ['midrail thickness', 'bottom extension', 'end in diameters', 'first cut needed', 'foot notch share']
let s:words += ['foot shear ratio', 'gap at the posts', 'head notch share', 'head shear ratio', 'least elasticity']
let s:words += ['reaches the rail', 'slack at the top', 'triangle opening', 'winder spread at', 'above its floor']
let s:words += ['between flights', 'board thickness', 'fastener length', 'flights abreast', 'head on its rim']
let s:words += ['last cut needed', 'midrail opening', 'reach to a rail', 'reaches a guard', 'toe board drawn']
let s:words += ['tread fasteners', 'baluster count', 'baluster width', 'coating stands', 'contrast below']
let s:words += ['dropped header', 'fastener count', 'foot fasteners', 'handrail sides', 'head fasteners']
let s:words += ['most fasteners', 'past its grade', 'quarter circle', 'rail fasteners', 'recess reached']
let s:words += ['strip of floor', 'unguarded drop', 'unrailed walls', 'balusters for', 'bearing ratio']
let s:words += ['bending ratio', 'between posts', 'bottom finish', 'circumference', 'guards beside', 'height spread']
let s:words += ['landing drawn', 'lateral ratio', 'lateral value', 'midrail drawn', 'narrow radius', 'next fastener']
let s:words += ['nosing spread', 'off the steps', 'opening above', 'opening below', 'risers missed', 'spiral across']
let s:words += ['switch floors', 'tearing ratio', 'toe board gap', 'top extension', 'top rail lies', 'width lacking']
let s:words += ['baluster cut', 'baluster gap', 'barrier edge', 'board height', 'column ratio', 'deck lacking']
let s:words += ['depth needed', 'flight width', 'foot bearing', 'grain length', 'group across', 'guard beside']
let s:words += ['head bearing', 'level length', 'narrow depth', 'narrow going', 'post spacing', 'pulled ratio']
let s:words += ['railed sides', 'reached from', 'recess depth', 'recess start', 'rise closure', 'riser spread']
let s:words += ['room beneath', 'room between', 'steps behind', 'strip margin', 'tallest post', 'treads swept']
let s:words += ['two-by depth', 'width needed', 'winder count', 'wood beneath', 'board count', 'board depth']
let s:words += ['broad depth', 'broad going', 'compression', 'drop within', 'edge length', 'edge radius']
let s:words += ['group apart', 'held behind', 'interrupted', 'longest bit', 'nosing line', 'notch share']
let s:words += ['penetration', 'pilot share', 'pole radius', 'prop height', 'push height', 'recess kept']
let s:words += ['riser count', 'riser faces', 'room behind', 'row spacing', 'run closure', 'shear ratio']
let s:words += ['slenderness', 'steps above', 'thinner way', 'wall behind', 'wall beside', 'winder side', 'accessible']
let s:words += ['bare sides', 'bottom gap', 'carried by', 'clear span', 'drawn span', 'edge bevel', 'elasticity']
let s:words += ['foot notch', 'from riser', 'from tread', 'front foot', 'head notch', 'larger way', 'leg height']
let s:words += ['level span', 'load width', 'off square', 'open sides', 'other edge', 'plate room', 'projection']
let s:words += ['pull ratio', 'rail depth', 'rail posts', 'recess end', 'room above', 'room below', 'root share']
let s:words += ['run spread', 'seat depth', 'step depth', 'toe-nailed', 'top finish', 'total rise', 'upper pull']
let s:words += ['widest gap', 'wood ahead', 'worst load', 'balusters', 'bare edge', 'clearance', 'climbable']
let s:words += ['continues', 'dead load', 'direction', 'edge left', 'elevation', 'first cut', 'foot seat', 'hold-down']
let s:words += ['hole play', 'infill to', 'level gap', 'occupants', 'own posts', 'panel gap', 'perimeter', 'rails lie']
let s:words += ['room left', 'set above', 'snow load', 'thickness', 'threshold', 'toe board', 'total run', 'underside']
let s:words += ['unit rise', 'contrast', 'crushing', 'cut ends', 'depth at', 'diagonal', 'diameter', 'enclosed']
let s:words += ['even gap', 'fastener', 'hardness', 'headroom', 'last cut', 'leads on', 'nut room', 'overhang']
let s:words += ['post top', 'rests on', 'set back', 'standing', 'switches', 'to riser', 'to tread', 'unit run']
let s:words += ['barrier', 'bearing', 'bending', 'carries', 'coating', 'durable', 'end cut', 'end gap', 'fail on']
let s:words += ['gravity', 'held by', 'housing', 'midrail', 'notched', 'opening', 'part of', 'read to', 'service']
let s:words += ['setting', 'spacing', 'through', 'tied by', 'top gap', 'treated', 'washers', 'access', 'across']
let s:words += ['begins', 'behind', 'boards', 'cables', 'demand', 'egress', 'finish', 'height', 'infill', 'length']
let s:words += ['let in', 'lining', 'narrow', 'nosing', 'rating', 'screws', 'spacer', 'spiral', 'stands', 'tannin']
let s:words += ['throat', 'way on', 'above', 'below', 'bolts', 'count', 'depth', 'every', 'girth', 'glass', 'grain']
let s:words += ['index', 'latch', 'lined', 'nails', 'notch', 'pilot', 'pitch', 'place', 'plate', 'props', 'rails']
let s:words += ['shape', 'shear', 'slope', 'spans', 'stack', 'swing', 'until', 'width', 'area', 'bays', 'drop', 'duty']
let s:words += ['edge', 'ends', 'fall', 'foot', 'from', 'give', 'grip', 'head', 'hole', 'lags', 'leaf', 'lean', 'legs']
let s:words += ['load', 'over', 'plan', 'rise', 'runs', 'ship', 'side', 'snow', 'span', 'tier', 'turn', 'cut', 'end']
let s:words += ['gap', 'run', 'use', 'on', 'to']
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
let s:words += ['contrast below', 'dropped header', 'recess reached', 'strip of floor', 'between posts']
let s:words += ['bottom finish', 'off the steps', 'toe board gap', 'top extension', 'top rail lies', 'baluster cut']
let s:words += ['barrier edge', 'foot bearing', 'head bearing', 'hold-down by', 'reached from', 'recess depth']
let s:words += ['recess start', 'compression', 'edge radius', 'interrupted', 'longest bit', 'recess kept']
let s:words += ['row spacing', 'accessible', 'bottom gap', 'elasticity', 'foot notch', 'from riser', 'from tread']
let s:words += ['front foot', 'head notch', 'open sides', 'recess end', 'toe-nailed', 'top finish', 'total rise']
let s:words += ['widest gap', 'balusters', 'clearance', 'continues', 'direction', 'first cut', 'hold-down']
let s:words += ['infill to', 'occupants', 'panel gap', 'perimeter', 'rails lie', 'thickness', 'threshold', 'toe board']
let s:words += ['total run', 'contrast', 'crushing', 'cut ends', 'diameter', 'enclosed', 'handrail', 'hardness']
let s:words += ['headroom', 'last cut', 'leads on', 'overhang', 'rests on', 'standing', 'switches', 'to riser']
let s:words += ['to tread', 'barrier', 'bearing', 'bending', 'durable', 'end cut', 'end gap', 'fail on', 'gravity']
let s:words += ['held by', 'housing', 'midrail', 'notched', 'part of', 'read to', 'section', 'setting', 'spacing']
let s:words += ['species', 'through', 'tied by', 'top gap', 'washers', 'access', 'across', 'begins', 'behind']
let s:words += ['boards', 'cables', 'egress', 'finish', 'height', 'infill', 'length', 'lining', 'narrow', 'nosing']
let s:words += ['rating', 'risers', 'screws', 'spacer', 'spiral', 'stands', 'tannin', 'timber', 'along', 'below']
let s:words += ['bolts', 'class', 'count', 'depth', 'every', 'glass', 'joins', 'latch', 'lined', 'nails', 'notch']
let s:words += ['pilot', 'plate', 'rails', 'rules', 'shape', 'shear', 'slope', 'swing', 'until', 'width', 'area']
let s:words += ['edge', 'ends', 'fall', 'foot', 'from', 'give', 'head', 'hole', 'lags', 'leaf', 'lean', 'only', 'over']
let s:words += ['plan', 'runs', 'ship', 'snow', 'span', 'turn', 'cut', 'end', 'gap', 'set', 'use', 'why', 'at', 'by']
let s:words += ['on', 'to']
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
let s:words += ['read between', 'limit by', 'because', 'caution', 'classes', 'edition', 'amends', 'passes', 'source']
let s:words += ['spares', 'basis', 'fails', 'limit', 'waive', 'where', 'says', 'sure', 'verb', 'for']
" end parts
call s:Match('stairRulesPart', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([^:{};"]*:\)\@=')
" begin blocks
let s:words = []
let s:words += ['amend figure', 'withdraw', 'chapter', 'ruleset', 'figure', 'amend', 'rule']
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
