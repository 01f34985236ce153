//! Why a method gives no value, as a value: never a number where the method does not hold.

/// What of a piece or a fastener a table does not hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Lacking {
    /// Bending, `F_b`.
    Bending,
    /// Tension along the grain, `F_t`.
    Tension,
    /// Shear, `F_v`.
    Shear,
    /// Compression across the grain.
    Across,
    /// Compression along the grain, `F_c`.
    Compression,
    /// Modulus of elasticity, `E`.
    Stiffness,
    /// `E_min`.
    LeastStiffness,
    /// Design values of the species and grade at all.
    DesignValues,
    /// Specific gravity of the species.
    Gravity,
    /// A fastener of this diameter.
    Diameter,
    /// Root diameter of the fastener.
    Root,
    /// Bending yield strength of the fastener.
    YieldStrength,
    /// The head of the fastener.
    Head,
    /// The tip of the fastener.
    Tip,
    /// An adjustment factor for the size or the condition.
    Factor,
    /// An end, edge, spacing or row distance.
    Distance,
}

/// A distance of a fastener in a member.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Placed {
    /// To the end, along the grain.
    End,
    /// To the edge that the load presses towards.
    LoadedEdge,
    /// To the other edge, or to either under a load along the grain.
    UnloadedEdge,
    /// To the next in the row.
    Spacing,
    /// To the next row.
    Rows,
}

/// Why a method gives no value.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Outside {
    /// A table does not hold it.
    Lacking(Lacking),
    /// A lateral value above 1 in of diameter: NDS 12.1.
    LateralOverOneInch,
    /// A bolt under 1/4 in: NDS 12.1.3.
    BoltUnderQuarterInch,
    /// A round-head bolt whose square neck lies in a hole wider than it, or in a member too thin: outside ASME B18.2.1.
    NeckOfCarriageBolt,
    /// It goes less deep than so many diameters: NDS 12.1.4.6, 12.1.5.6, 12.1.6.4.
    TooShallow {
        /// The least, in diameters.
        least: f64,
    },
    /// Nearer than is permitted: NDS 12.5.1.
    TooNear(Placed),
    /// A nail or wood screw pulled out of end grain: NDS 12.2.2.3, 12.2.3.4.
    WithdrawalFromEndGrain,
    /// A bolt along its length: it holds by what presses under its head and nut, not by the wood around it.
    PulledBolt,
    /// Toe-nails and toe-screws pulled out, or others than nails set so.
    ToeNailed,
    /// A notch deeper, longer or elsewhere than the clause allows: NDS 4.4.3.
    Notch,
    /// A member that nothing holds against rolling over: NDS 4.4.1.
    NotHeld,
    /// A column more slender than 50: NDS 3.7.1.4.
    TooSlender,
    /// A board under 2 in thick: no table gives its strength.
    ThinBoard,
    /// A metal part without stated values.
    MetalWithoutValues,
    /// Timber that was treated against fire: its values are those of whoever treats it. NDS 2018, 2.3.4, from memory.
    FireRetardant,
    /// A glued joint.
    Glued,
    /// Members that do not lie on each other, or more than two of them.
    Gap,
    /// A length, a size or a count that is nothing or less.
    NothingThere,
    /// It comes to no finite number.
    Undefined,
}
