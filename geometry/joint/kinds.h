// The kinds of joint that ship, one function each; standard_joints.cpp lists them.
#pragma once

#include "joint/joint_kind.h"

namespace dryfit {

JointKind mortiseAndTenon();
JointKind stubTenon();
JointKind groovedPanel();
JointKind dovetailedNotch();
JointKind mitre();
JointKind dowelled();
JointKind nailedFace();
JointKind restsOn();

}  // namespace dryfit
