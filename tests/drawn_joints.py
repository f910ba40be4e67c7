"""Joints as they are drawn on the page, in a hall of 9 x 6 m, for tests of how they are edited."""

from shapely.geometry import box

from kerfline.app.working import DrawnJoint
from kerfline.model.layout import Reason

HALL = box(0, 0, 9000, 6000)
JOG = ((3000, 0), (3000, 2000), (4000, 4000), (4000, 6000))


def joint(name, *path, **more):
    return DrawnJoint(id=name, path=path, reason=Reason.SPAN, note="", **more)


def path_of(joints, name):
    return next(j.path for j in joints if j.id == name)
